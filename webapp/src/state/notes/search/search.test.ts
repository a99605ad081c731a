// @vitest-environment node
import { expect, it } from "vitest";
import type { Folded } from "../../entry/fold";
import { matching, sayings, wordsOf } from "./search";

const trip = "ledge";
const onRod = (rod: string): Folded =>
  ({
    kind: "mark",
    struck: false,
    entries: [],
    conflicts: new Map(),
    fields: new Map([
      ["rod", { value: rod }],
      ["fish", { value: "bluefish, 33 in" }],
    ]),
  }) as unknown as Folded;

const matches = (record: Folded, trip: string, wanted: string[]): boolean =>
  matching(`\nr\t${sayings.value.of(record)}`, trip, wanted).length > 0;

it("finds a rod by its number, and no other that has the figure somewhere else", () => {
  const wanted = wordsOf("Rod 3");
  expect(wanted).toEqual(["rod 3"]);
  expect(matches(onRod("3 port corner"), trip, wanted)).toBe(true);
  expect(matches(onRod("2 starboard rigger"), trip, wanted)).toBe(false);
  expect(matches(onRod("13 bow"), trip, wanted)).toBe(false);
});

it("takes other words one by one", () => {
  expect(wordsOf("bluefish rod 3  ledge")).toEqual(["bluefish", "rod 3", "ledge"]);
  expect(matches(onRod("3 port corner"), trip, wordsOf("bluefish rod 3 ledge"))).toBe(true);
});
