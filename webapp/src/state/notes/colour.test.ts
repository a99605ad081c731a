/** The colour of a spoon: on this phone, from an older app or a backup, and as notes hold it for other phones. */
import { expect, it } from "vitest";
import { takeDocument } from "../../base/store/kept";
import { gear } from "../gear/gear";
import { rigInColour, spoonInColour } from "../gear/names";
import { sampleGear } from "../spread/sample";
import { spreadIn } from "./snapshot";

const [spoon] = sampleGear.spoons;
if (!spoon) throw new Error("no spoon");

it("is not told in the gear of an older app, which is taken whole", () => {
  const { colour: _, ...older } = spoon;
  expect(takeDocument("gear", { ...sampleGear, spoons: [older] })).toBeTypeOf("function");
  expect(gear.value.spoons).toEqual([{ ...spoon, colour: "" }]);
  expect(takeDocument("gear", { ...sampleGear, spoons: [{ ...spoon, colour: "chartreuse" }] })).toBeTypeOf(
    "function",
  );
  expect(gear.value.spoons[0]?.colour).toBe("chartreuse");
  // What is none is no gear to be taken.
  expect(takeDocument("gear", { ...sampleGear, spoons: [{ ...spoon, colour: 7 }] })).toBeUndefined();
});

it("tells apart what is of one length, wherever it is chosen", () => {
  expect(spoonInColour(spoon)).toMatch(/^7\.9.in spoon$/);
  expect(spoonInColour({ ...spoon, colour: "metal" })).toMatch(/^7\.9.in spoon, bare metal$/);
  const green = { ...sampleGear, spoons: [{ ...spoon, name: "big one", colour: "Chartreuse" }] };
  const [rig] = green.rigs;
  expect(rig && rigInColour(rig, green)).toMatch(/big one, chartreuse$/);
});

it("is read of what any phone noted, and passed over where it is no word", () => {
  const rod = { place: "port", rig: "r", lure: "l", lineOut: 60, drail: 0 };
  const coloured = ["white", "two\nlines", "", 7, null].map((colour) => ({ ...rod, colour }));
  const rods = spreadIn({ speed: 1.5, bottom: 15, rods: [rod, ...coloured] })?.rods;
  expect(rods?.map(({ colour }) => colour)).toEqual([undefined, "white", "two lines", ...Array(3)]);
});
