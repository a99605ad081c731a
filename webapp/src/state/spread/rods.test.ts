import "fake-indexeddb/auto";
import { describe, expect, it } from "vitest";
import { writeKept } from "../../base/store/db";
import { complete, type Gear, type Rig, renewed, withCatalogue } from "../gear/gear";
import { lessons } from "./learned";
import { bareRod, kindsOn, rodFor, weightOn } from "./request";
import { sampleCatalogue as catalogue, catalogued, sampleSpread } from "./sample";
import { firstSpread, spread } from "./spread";

const none: Gear = { wires: [], nylons: [], spoons: [], drails: [], places: [], rigs: [] };

describe("the first gear", () => {
  const gear = withCatalogue(none, catalogue);

  it("is the whole catalogue and one rig of it", () => {
    expect(complete(gear)).toBe(true);
    expect(gear.rigs[0]).toMatchObject({
      wire: gear.wires[1]?.id,
      leader: gear.nylons[1]?.id,
      dropper: null,
    });
  });

  it("never takes the place of what a person has", () => {
    const own = { ...none, wires: [{ ...catalogued(99), id: "mine", name: "old", strum: 1.5 }] };
    expect(withCatalogue(own, catalogue).wires).toEqual(own.wires);
  });

  it("makes the first spread, which the desk is asked as it stands", () => {
    const spread = firstSpread(catalogue, gear);
    const [first, second] = spread.rods.map((rod) => rodFor(gear, rod));
    expect(first).toMatchObject({ tipHeight: 2, lineOut: 60 });
    expect(first?.rig.drails).toEqual([]);
    expect(second?.rig.drails).toEqual([{ mass: 0.2268, above: 6 }]);
    expect(second?.rig.wire).toEqual({ diameter: 5e-4, density: 7930, strum: 1.3 });
  });
});

it("rods as an app kept them that knew of none that were in are in the water", async () => {
  const { allIn: _, ...before } = sampleSpread;
  await writeKept("spread", before);
  await spread.loaded();
  expect(spread.value).toEqual({ ...sampleSpread, allIn: false });
});

describe("gear from the catalogue as it was before", () => {
  const now = withCatalogue(none, catalogue);
  const [wire, nylon, spoon] = [now.wires[0], now.nylons[0], now.spoons[0]];
  if (!wire || !nylon || !spoon) throw new Error("no gear");
  const before: Gear = {
    ...now,
    wires: [{ ...wire, strum: 1, source: "before", name: "the old one" }],
    nylons: [{ ...nylon, strum: 1, source: "before" }],
    spoons: [{ ...spoon, dragArea: 2e-4, source: "before" }],
  };

  it("takes the new drag, and keeps its name", () => {
    const after = renewed(before, catalogue);
    expect(after.wires[0]).toEqual({ ...wire, name: "the old one" });
    expect(after.nylons[0]).toEqual(nylon);
    expect(after.spoons[0]).toEqual(spoon);
    expect(renewed(after, catalogue)).toEqual(after);
  });

  it("stays as it is where somebody has changed it", () => {
    const changed: Gear = {
      ...before,
      wires: [{ ...wire, strum: 1, source: "your own" }],
      nylons: [{ ...nylon, strum: 1.2, source: "before" }],
      spoons: [{ ...spoon, mass: 0.11, dragArea: 2e-4, source: "before" }],
    };
    expect(renewed(changed, catalogue)).toEqual(changed);
  });
});

describe("a rod whose gear is gone", () => {
  it("takes the first of its kind instead", () => {
    const gear = withCatalogue(none, catalogue);
    const rod = { id: "r", place: "lost", rig: "lost", lineOut: 50, drail: 0, sinker: 0, planned: null };
    expect(rodFor(gear, rod).tipHeight).toBe(1);
  });
});

it("the rule of thumb counts drail and sinker together", () => {
  const gear = withCatalogue(none, catalogue);
  const rig = { ...(gear.rigs[0] as Gear["rigs"][number]), dropper: { line: "", length: 1, sinker: 0.3 } };
  const rod = { id: "r", place: "", rig: rig.id, lineOut: 50, drail: 0.1, sinker: 0, planned: null };
  expect(weightOn({ ...gear, rigs: [rig] }, rod)).toBeCloseTo(0.4, 12);
});

describe("what touches have taught", () => {
  const gear = withCatalogue(none, catalogue);
  const rod = { id: "r", place: "", rig: "", lineOut: 50, drail: 0, sinker: 0, planned: null };
  const learned = {
    lineDrag: -0.1,
    friction: 0,
    lureWeight: 0,
    lureDrag: 0,
    lureLift: 0,
    sinkers: 0,
    root: [],
  };
  // As the first rig is called on every phone: strength of its wire, length of its spoon.
  const of = [{ wire: "180 N", lure: "200 mm", learned }];

  it("goes with every rod of such wire and lure, and with no other", () => {
    lessons.signal.value = { on: true, used: 3, of };
    expect(rodFor(gear, rod).learned).toEqual(learned);
    expect(bareRod(gear, rod).learned).toBeUndefined();
    const named = { ...gear, spoons: gear.spoons.map((spoon) => ({ ...spoon, name: "The good one" })) };
    expect(rodFor(named, rod).learned).toBeUndefined();
    expect(kindsOn(named, named.rigs[0] as Rig).lure).toBe("the good one");
  });

  it("stays out of them when depths are to be as before", () => {
    lessons.signal.value = { on: false, used: 3, of };
    expect(rodFor(gear, rod).learned).toBeUndefined();
  });
});
