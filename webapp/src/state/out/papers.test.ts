/** What is reported of a trip, by hand. */
import { expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { unknownTrip } from "../log/disk/summary";
import { landingsOf, sumOf } from "./papers";

const hour = 3600_000;
/** The midnight in the trip. */
const midnight = new Date(2026, 6, 5).getTime();
const trip = { ...unknownTrip("t"), parts: ["t"], opened: midnight - 5 * hour, ground: "" };

let n = 0;
const entry = (at: number, kind: string, set: object, record = `r${n}`): Stored => ({
  ...{ id: `e${++n}`, record, kind, trip: "t", prev: [], set: { ...set } },
  ...{ at: midnight + at * hour, n, own: true as const },
});
const bass = (at: number, more: object = {}) =>
  entry(at, "mark", { fish: "striped bass", fate: "kept", person: "Ann", ...more });
const of = (entries: Stored[], more = {}) =>
  landingsOf({ ...trip, ...more }, foldAll(entries)).map(({ day, waters, fish }) => [
    (day - midnight) / hour,
    waters,
    fish.map(({ species, count, fate, person }) => [species, count, fate, person].join(" ")),
  ]);

it("puts a fish on the day when it came up, not on that when the trip began", () => {
  expect(of([bass(-2), bass(1)])).toEqual([
    [-24, "", ["striped bass 1 kept Ann"]],
    [0, "", ["striped bass 1 kept Ann"]],
  ]);
});

it("tells the waters that each was judged by, else where the trip went", () => {
  const two = [bass(1, { waters: "ocean" }), bass(2, { waters: "bay" }), bass(3)];
  expect(of(two, { ground: "Shoal" }).map(([, waters]) => waters)).toEqual(["ocean", "bay", "Shoal"]);
});

it("counts of a bag what was not marked that day, and nothing twice", () => {
  const bag = (at: number, count: number) => entry(at, "bag", { fish: "striped bass", person: "Ann", count });
  expect(of([bass(1, { waters: "ocean" }), bag(2, 1)])).toEqual([[0, "ocean", ["striped bass 1 kept Ann"]]]);
  expect(of([bass(-2), bag(2, 1)])).toEqual([
    [-24, "", ["striped bass 1 kept Ann"]],
    [0, "", ["striped bass 1 kept Ann"]],
  ]);
});

it("has a trip without fish on the day when it began", () => {
  expect(of([entry(1, "mark", { fish: "lost" }), entry(1, "mark", {})])).toEqual([[-24, "", []]]);
});

it("knows how many are named where nobody told how many are aboard", () => {
  const people = ["Ann", "Ben", "Ann"].map((name) => entry(-4, "person", { name }));
  const heads = (all: Stored[]) =>
    landingsOf(trip, foldAll(all)).map(({ aboard, named }) => [aboard, named])[0];
  expect(heads(people)).toEqual([0, 2]);
  expect(heads([...people, entry(-5, "trip", { aboard: 4 }, "t")])).toEqual([4, 2]);
});

it("sums up by species and what became of them, whoever’s and whenever they were", () => {
  const all = [
    bass(-2),
    bass(1, { person: "Gus" }),
    bass(2, { fate: "released" }),
    bass(3, { fish: "bluefish" }),
  ];
  const landings = landingsOf(trip, foldAll([...all, entry(4, "mark", { fish: "lost" })]));
  expect(sumOf(landings).map(({ species, fate, count }) => `${count} ${species} ${fate}`)).toEqual([
    "1 bluefish kept",
    "2 striped bass kept",
    "1 striped bass released",
  ]);
  expect(landings.flatMap(({ fish }) => fish).map(({ count }) => count)).toEqual([1, 1, 1, 1]);
});
