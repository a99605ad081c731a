import { expect, it } from "vitest";
import type { Fields, Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { catchOf } from "./catch";

let n = 0;
const told = (kind: string, set: Fields, struck = false): Stored[] => {
  const id = `r${++n}`;
  const entry = { record: id, kind, trip: "t", at: 1, n };
  const first = { ...entry, id: `${id}a`, prev: [], set };
  return struck ? [first, { ...entry, id: `${id}b`, prev: [`${id}a`], strike: true }] : [first];
};

const caught = (...entries: Stored[][]) => catchOf(foldAll(entries.flat()));

it("of nothing noted, nothing was caught", () => {
  expect(caught(told("note", { text: "fog" }))).toEqual({
    all: { of: "", kept: 0, released: 0, untold: 0 },
    off: 0,
    offWhy: new Map(),
    bySpecies: [],
    byRod: [],
  });
});

// Counted by hand.
it("counts fish kept and let go by species, the most first, and by rod; what got off is no fish", () => {
  const of = caught(
    told("mark", { fish: "bluefish", rod: "2 port", fate: "released" }),
    told("mark", { fish: "striped bass", rod: "10 stern", fate: "kept" }),
    told("mark", { fish: "striped bass", rod: "2 port", fate: "kept" }),
    told("mark", { fish: "striped bass", rod: "2 port", fate: "released" }),
    told("mark", { fish: "lost", rod: "2 port", off: "pulled out" }),
    told("mark", { rod: "2 port" }),
    told("mark", { fish: "striped bass", fate: "kept" }, true),
  );
  expect(of.all).toMatchObject({ kept: 2, released: 2, untold: 1 });
  expect(of.off).toBe(1);
  expect([...of.offWhy]).toEqual([["pulled out", 1]]);
  expect(of.bySpecies).toEqual([
    { of: "striped bass", kept: 2, released: 1, untold: 0 },
    { of: "", kept: 0, released: 0, untold: 1 },
    { of: "bluefish", kept: 0, released: 1, untold: 0 },
  ]);
  expect(of.byRod).toEqual([
    { of: "2 port", kept: 1, released: 2, untold: 1 },
    { of: "10 stern", kept: 1, released: 0, untold: 0 },
  ]);
});

it("what is in the bag counts where it tells of more", () => {
  const of = caught(
    told("mark", { fish: "bluefish", fate: "kept" }),
    told("bag", { fish: "bluefish", count: 3, person: "Gus" }),
    told("bag", { fish: "bluefish", count: 1, person: "Ann" }),
    told("bag", { fish: "fluke", count: 2 }),
    told("bag", { fish: "fluke", count: 9 }, true),
  );
  expect(of.bySpecies.map(({ of, kept }) => [of, kept])).toEqual([
    ["bluefish", 4],
    ["fluke", 2],
  ]);
  expect(of.all.kept).toBe(6);
});

it("what another phone wrote that is no number and no word is passed over", () => {
  const of = caught(told("bag", { fish: 5, count: "many" }), told("mark", { fish: [1], fate: "eaten" }));
  expect(of.bySpecies).toEqual([{ of: "", kept: 0, released: 0, untold: 1 }]);
});
