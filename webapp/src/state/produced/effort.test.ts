/** Effort as the notes tell it, by hand. */
import { describe, expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { effortOf } from "./effort";
import { levelOfRod } from "./factors";
import { queryOf } from "./season";
import { lightAt } from "./water";

const minute = 60_000;
let n = 0;

/** A record with one entry, so many minutes after the beginning. */
const entry = (at: number, kind: string, set: object, by?: string): Stored => {
  n++;
  const id = `00000000-0000-4000-8000-${String(n).padStart(12, "0")}`;
  return {
    ...{ id, record: id, kind, trip: "t", prev: [], set: { ...set }, at: at * minute, n, no: n },
    ...(by ? { by, byName: by } : { own: true as const }),
  };
};

const rod = (place: string, lineOut: number, more: object = {}) => ({
  ...{ place, rig: "r", lure: "white", lineOut, drail: 0, depth: { low: 9, mid: 10, high: 11 } },
  ...more,
});
const spread = (...rods: object[]) => ({ spread: { speed: 1.5, bottom: 15, rods } });
const effort = (entries: Stored[], end = 600) => effortOf(foldAll(entries), end * minute);
const spans = (entries: Stored[], end?: number) =>
  effort(entries, end).outs.map(({ from, to, rod: { place, lineOut }, changed }) => [
    place,
    lineOut,
    Math.round(from / minute),
    Math.round(to / minute),
    ...changed,
  ]);

it("the depth of water is as set with the lines until a pass tells another, and as set again after", () => {
  const all = [
    entry(10, "lines", spread(rod("port", 60))),
    entry(31, "pass", { bottom: 11 }),
    entry(35, "pass", { heading: 1 }),
    entry(60, "mark", spread(rod("port", 60))),
  ];
  expect(effort(all).bottoms.map(({ at, depth }) => [at / minute, depth])).toEqual([
    [10, 15],
    [31, 11],
    [60, 15],
  ]);
});

describe("lines in the water", () => {
  it("are so from one note of the lines to the next", () => {
    const both = [
      entry(10, "lines", spread(rod("port", 60), rod("starboard", 70))),
      entry(100, "lines", spread(rod("port", 80), rod("starboard", 70))),
      entry(160, "lines", spread()),
      entry(200, "note", { text: "home" }),
    ];
    expect(spans(both)).toEqual([
      ["port", 60, 10, 100],
      ["starboard", 70, 10, 160],
      ["port", 80, 100, 160],
    ]);
  });

  it("have one spoon, noted in words by an older app and by its length by this one", () => {
    const noted = (lure: string) => spread(rod("port", 60, { lure }));
    const ofOne = [
      entry(10, "lines", noted("8\u00a0in spoon")),
      entry(70, "mark", { ...noted("203 mm"), rod: "1 port" }),
      entry(120, "lines", spread()),
    ];
    expect(spans(ofOne)).toEqual([["port", 60, 10, 120]]);
    const ofTwo = [...ofOne.slice(0, 1), entry(70, "mark", { ...noted("178 mm"), rod: "1 port" })];
    expect(effort(ofTwo, 120).outs[0]?.changed).toEqual(["lure"]);
  });

  it("are not told where another note shows that they had changed, nobody knows when", () => {
    const strike = entry(70, "mark", { ...spread(rod("port", 80)), rod: "1 port" });
    const all = [entry(10, "lines", spread(rod("port", 60))), strike, entry(120, "lines", spread())];
    expect(spans(all)).toEqual([
      ["port", 60, 10, 70, "lineOut"],
      ["port", 80, 70, 120],
    ]);
    // Nor does the strike that showed it count for what it showed.
    expect(effort(all).strikes.map(({ out }) => out)).toEqual([0]);
  });

  it("have a colour where it was told, and none where it changed, nobody knows when", () => {
    const white = (more: object) => spread(rod("port", 60, { colour: "white", ...more }));
    const all = [
      entry(10, "lines", white({})),
      entry(60, "touch", white({})),
      entry(90, "touch", white({ colour: "chartreuse" })),
      entry(120, "lines", spread(rod("port", 60))),
      entry(150, "lines", spread()),
    ];
    const colours = effort(all).outs.map((out) => [out.to / minute, levelOfRod("colour", out)]);
    expect(colours).toEqual([
      [60, "White"],
      [90, undefined],
      [120, "chartreuse"],
      [150, undefined],
    ]);
  });

  it("end an hour after the last note where the trip was closed much later", () => {
    expect(spans([entry(10, "lines", spread(rod("port", 60)))], 900)).toEqual([["port", 60, 10, 70]]);
    expect(spans([entry(10, "lines", spread(rod("port", 60)))], 40)).toEqual([["port", 60, 10, 40]]);
  });

  it("are not known to have fished on where a strike alone tells of them", () => {
    const strike = (at: number, ...rods: object[]) =>
      entry(at, "mark", { ...spread(...rods), rod: "1 port" });
    const four = ["port", "starboard", "rigger", "stern"].map((place) => rod(place, 60));
    const alone = effort([strike(10, ...four)]);
    expect(alone.outs).toEqual([]);
    expect(alone.strikes.map(({ out, record }) => [out, record.kind])).toEqual([[-1, "mark"]]);
    // Of two strikes the first tells that they were out before the second.
    expect(spans([strike(10, rod("port", 60)), strike(30, rod("port", 60))])).toEqual([["port", 60, 10, 90]]);
    // And where their note came before.
    expect(spans([entry(5, "lines", spread(rod("port", 60))), strike(10, rod("port", 60))])).toEqual([
      ["port", 60, 5, 70],
    ]);
  });

  it("are those of the phone that notes them, and not of a guest's own spread", () => {
    const guests = entry(50, "mark", { ...spread(rod("mine", 5)), rod: "1 port" }, "guest");
    const all = [entry(10, "lines", spread(rod("port", 60))), guests, entry(120, "lines", spread())];
    expect(spans(all)).toEqual([["port", 60, 10, 120]]);
    expect(effort(all).strikes.map(({ out }) => out)).toEqual([0]);
  });

  it("do not count what was struck out, nor a strike with no line noted", () => {
    const gone = [entry(10, "lines", spread(rod("port", 60))), entry(90, "note", { text: "x" })];
    gone.push({
      ...entry(20, "lines", {}),
      record: gone[0]?.record ?? "",
      strike: true,
      set: undefined,
    } as never);
    expect(spans(gone)).toEqual([]);
    expect(effort([entry(5, "mark", { rod: "1 port" })]).strikes.map(({ out }) => out)).toEqual([-1]);
  });
});

it("asks the desk with what each spell and line was, in seconds", () => {
  const all = [
    entry(10, "lines", spread(rod("port", 60))),
    entry(40, "pass", { heading: 0.8 }),
    entry(70, "mark", { ...spread(rod("port", 60)), rod: "1 port", fish: "striped bass", fate: "kept" }),
    entry(130, "lines", spread()),
  ];
  const light = [{ from: 10 * minute, to: 60 * minute, is: "dawn" as const }];
  const outing = { trip: "t", ground: "Shoal", opened: 0, effort: effort(all), light, tide: [] };
  const query = queryOf([outing], { of: "strikes", pair: ["light", "lure"], looks: 2 });
  expect(query.boat.map(({ name, levels }) => [name, levels.map((one) => one.name)])).toEqual([
    ["light", ["Dawn"]],
    ["tide", []],
    ["ground", ["Shoal"]],
    ["speed", ["2.8–3.0\u00a0kn"]],
    ["heading", ["045°"]],
    ["beat", []],
  ]);
  expect(query.trips[0]?.spells.map(({ from, to, levels }) => [from / 60, to / 60, levels])).toEqual([
    [0, 30, [0, -1, 0, 0, -1, -1]],
    [30, 50, [0, -1, 0, 0, 0, -1]],
    [50, 90, [-1, -1, 0, 0, 0, -1]],
    [90, 120, [-1, -1, 0, 0, -1, -1]],
  ]);
  expect(query.trips[0]?.strikes).toEqual([{ at: 3600, set: 0, landed: true, kept: true }]);
  expect(query.pairs).toEqual([{ one: 0, other: 7 }]);
  expect(query.within).toBe(0);
});

it("calls it dawn from first light to an hour and a half after sunrise, and dusk likewise", () => {
  const hour = 3600;
  const day = (n: number) => [
    { time: n * 24 * hour + 5 * hour, change: "nautical dawn" as const },
    { time: n * 24 * hour + 6 * hour, change: "sunrise" as const },
    { time: n * 24 * hour + 18 * hour, change: "sunset" as const },
    { time: n * 24 * hour + 19 * hour, change: "nautical dusk" as const },
  ];
  const events = [...day(0), ...day(1), ...day(2)];
  const at = (h: number) => lightAt(events, (24 + h) * hour * 1000);
  expect([4, 5.5, 6.5, 7.4, 7.6, 12, 16.4, 16.6, 18.5, 19.5].map(at)).toEqual([
    ...["night", "dawn", "dawn", "dawn", "day", "day", "day", "dusk", "dusk", "night"],
  ]);
});

it("tells the desk once of what goes on as it was, however often it is noted, and of a strike the line it was on", () => {
  const at = (minutes: number, lineOut: number, kind = "touch", more: object = {}) =>
    entry(minutes, kind, { ...spread(rod("port", lineOut), rod("starboard", 70)), ...more });
  // 62 and 63 m are of one level, 80 m is not.
  const all = [at(10, 62, "lines")];
  for (let i = 1; i < 50; i++) all.push(at(10 + i, 62 + (i % 2), "lines"));
  all.push(
    at(60.5, 63, "mark", { rod: "1 port" }),
    at(90, 80, "lines"),
    at(120, 80, "mark", { rod: "1 port" }),
  );
  all.push(entry(130, "lines", spread()));
  const query = queryOf([{ trip: "t", ground: "", opened: 0, effort: effort(all) }], {
    ...{ of: "strikes", pair: undefined, looks: 1 },
  });
  const [trip] = query.trips;
  expect(trip?.spells).toHaveLength(1);
  expect(trip?.sets.map(({ from, to }) => [from / 60, to / 60])).toEqual([
    [0, 80],
    [0, 120],
    [80, 120],
  ]);
  expect(trip?.strikes.map(({ at, set }) => [at / 60, set])).toEqual([
    [50.5, 0],
    [110, 2],
  ]);
});
