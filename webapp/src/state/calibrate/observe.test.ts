import { describe, expect, it } from "vitest";
import type { Fields, Stored } from "../entry/entry";
import { uuid } from "../entry/uuid";
import { type Asked, notedIn, observations } from "./observe";

const trip = uuid();
const asked: Asked = {
  name: "1 port rigger",
  rod: {
    tipHeight: 1.2,
    lineOut: 60,
    rig: {
      wire: { diameter: 5e-4, density: 7930 },
      wireLength: 90,
      backing: { diameter: 8e-4, density: 1140 },
      leader: { diameter: 7e-4, density: 1140 },
      leaderLength: 6,
      lure: { mass: 0.11, density: 8200, dragArea: 1e-3 },
      drails: [{ mass: 0.2268, above: 6 }],
    },
  },
  wire: "178 N",
  lure: "203 mm",
  water: { density: 1022, viscosity: 1.4e-6 },
  speedDoubt: 0.05,
};
const fields: Fields = { rod: "1 port rigger", bottom: 14, lineOut: 60, speed: 1.6, asked };

let n = 0;
const entry = (set: Fields | "strike", more: Partial<Stored> = {}): Stored => ({
  id: uuid(),
  record: uuid(),
  kind: "touch",
  trip,
  prev: [],
  ...(set === "strike" ? { strike: true as const } : { set }),
  at: 1000,
  n: ++n,
  ...more,
});
const next = (of: Stored, set: Fields | "strike", more: Partial<Stored> = {}): Stored =>
  entry(set, { record: of.record, prev: [of.id], at: of.at + 1, ...more });
const seen = (entries: Stored[]) => observations(notedIn(entries), 61_000);

describe("a touch of the log as calibration takes it", () => {
  it("has rod, kinds, sea and the doubt of its speed, and how old it is", () => {
    expect(seen([entry(fields)])).toEqual([
      {
        kind: "ticks",
        sea: { speed: 1.6, bottom: 14, water: asked.water },
        rod: asked.rod,
        wire: "178 N",
        lure: "203 mm",
        speedDoubt: 0.05,
        age: 60,
      },
    ]);
  });

  it("is the other thing when the line ran clear", () => {
    expect(seen([entry(fields, { kind: "clear" })])[0]?.kind).toBe("clear");
  });

  it("has line, speed and depth of water as they were amended", () => {
    const one = entry(fields);
    const [now] = seen([one, next(one, { lineOut: 75, bottom: 16, speed: 1.7 })]);
    expect(now?.rod.lineOut).toBe(75);
    expect(now?.sea).toMatchObject({ bottom: 16, speed: 1.7 });
  });

  it("has the drail as it was amended, or none", () => {
    const one = entry({ ...fields, drail: 0.2268 });
    expect(seen([one])[0]?.rod.rig.drails).toEqual([{ mass: 0.2268, above: 6 }]);
    expect(seen([one, next(one, { drail: 0.34 })])[0]?.rod.rig.drails).toEqual([{ mass: 0.34, above: 6 }]);
    expect(seen([one, next(one, { drail: 0 })])[0]?.rod.rig.drails).toEqual([]);
  });

  it("has the sinker of a three-way as it was amended", () => {
    const dropper = { line: { diameter: 5e-4, density: 1140 }, length: 0.6, sinker: 0.34 };
    const hung = { ...asked, rod: { ...asked.rod, rig: { ...asked.rod.rig, drails: [], dropper } } };
    const one = entry({ ...fields, drail: 0, sinker: 0.34, asked: hung });
    expect(seen([one])[0]?.rod.rig.dropper?.sinker).toBe(0.34);
    expect(seen([one, next(one, { sinker: 0.45 })])[0]?.rod.rig.dropper?.sinker).toBe(0.45);
  });

  it("is none once it is struck out, and is one again when the stroke is taken back", () => {
    const one = entry(fields);
    const stroke = next(one, "strike");
    expect(notedIn([one, stroke])).toEqual([]);
    expect(seen([one, stroke, next(stroke, { struck: false }, { record: one.record })])).toHaveLength(1);
  });

  it("is shown, and tells nothing, when an older app wrote it or the rod is another one by now", () => {
    const { asked: _, ...old } = fields;
    const one = entry(fields);
    const both = [entry(old), one, next(one, { rod: "2 starboard rigger" })];
    expect(notedIn(both)).toHaveLength(2);
    expect(seen(both)).toEqual([]);
  });

  it.each([
    ["nothing", null],
    ["words", "a rod"],
    ["no rod", { ...asked, rod: null }],
    ["no kind", { ...asked, wire: 40 }],
    ["no doubt", { ...asked, speedDoubt: "little" }],
  ])("tells nothing with %s in the place of what is asked", (_, bad) => {
    expect(seen([entry({ ...fields, asked: bad })])).toEqual([]);
  });

  it("is no older than now by a clock that was ahead, and the latest comes first", () => {
    const all = seen([entry(fields), entry({ ...fields, bottom: 15 }, { at: 70_000 })]);
    expect(all.map(({ age, sea }) => [age, sea.bottom])).toEqual([
      [0, 15],
      [60, 14],
    ]);
  });
});

describe("what was taught, as the log has it", () => {
  const { bottom: _, ...rest } = fields;
  const noted = (reading: Fields) =>
    entry({ ...rest, ...reading, was: 500, asked: { ...asked, readingDoubt: 0.4 } }, { kind: "taught" });

  it("is a known depth, of when it was so", () => {
    expect(seen([noted({ bottom: 12 })])[0]).toMatchObject({
      kind: "known",
      sea: { bottom: 12, speed: 1.6 },
      readingDoubt: 0.4,
      age: 60.5,
    });
  });

  it.each([
    ["angle", 0.12],
    ["entry", 9],
    ["pull", 12],
  ])("is a reading of the %s, without a depth", (reading, read) => {
    const [one] = seen([noted({ [reading]: read })]);
    expect(one).toMatchObject({ kind: reading, [reading]: read });
    expect(one?.sea.bottom).toBeUndefined();
  });

  it("tells nothing without a reading", () => {
    expect(seen([noted({})])).toEqual([]);
  });
});
