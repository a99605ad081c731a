import { expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { you } from "../log/log";
import { crewsHookups, hookupFor, linesIn, openHookups, toChoose } from "./hookup";

const now = 1e12;
const minute = 60_000;

let n = 0;
const mark = (record: string, ago: number, says: object = { set: {} }, kind = "mark"): Stored => ({
  id: `e${++n}`,
  record,
  kind,
  trip: "t",
  prev: [],
  at: now - ago * minute,
  n,
  own: true,
  ...says,
});

const found = (entries: Stored[], taken: string[] = []) => hookupFor(foldAll(entries), taken, now)?.id;

it("is the last hookup of the last quarter of an hour", () => {
  expect(found([mark("old", 40), mark("one", 9), mark("two", 3)])).toBe("two");
  expect(found([mark("old", 40), mark("late", 15.1)])).toBeUndefined();
  expect(found([mark("just", 15)])).toBe("just");
  expect(found([])).toBeUndefined();
});

it("is not one of which something has become, nor one struck out, nor anything else that was noted", () => {
  expect(found([mark("kept", 3, { set: { fate: "kept" } })])).toBeUndefined();
  expect(found([mark("lost", 3, { set: { fish: "lost" } })])).toBeUndefined();
  expect(found([mark("struck", 3), mark("struck", 2, { strike: true })])).toBeUndefined();
  expect(found([mark("touch", 1, { set: {} }, "touch")])).toBeUndefined();
  expect(
    found([mark("taken back", 3, { set: { fate: "kept" } }), mark("taken back", 2, { set: { fate: null } })]),
  ).toBe("taken back");
});

it("is not that of another fish in hand: of two rods at once each has its own", () => {
  const both = [mark("one", 5), mark("two", 4)];
  expect(found(both, ["t.two"])).toBe("one");
  expect(found(both, ["t.two", "t.one"])).toBeUndefined();
});

it("does not mind a clock that was set back a little since, but a day ahead is another day", () => {
  expect(found([mark("ahead", -5)])).toBe("ahead");
  expect(found([mark("far ahead", -24 * 60)])).toBeUndefined();
});

it("several at once are all offered, the last of them first thought of", () => {
  const both = foldAll([
    mark("old", 40),
    mark("one", 5),
    mark("two", 4),
    mark("kept", 3, { set: { fate: "kept" } }),
  ]);
  expect(openHookups(both, [], now).map(({ id }) => id)).toEqual(["one", "two"]);
  expect(openHookups(both, ["t.one"], now).map(({ id }) => id)).toEqual(["two"]);
});

it("however many one guest has marked, another's is thought of first, the crew's stand above them, and few of them are offered", () => {
  you.value = { device: "me", name: "Sal", role: "skipper", may: ["trips", "crew"], crew: ["me", "mate"] };
  const by = (record: string, ago: number, phone: string) =>
    mark(record, ago, { set: {}, own: false, by: phone, byName: phone });
  const others = [by("of the mate", 5, "mate"), by("kim", 4, "kim")];
  const flood = Array.from({ length: 9 }, (_, i) => by(`flood ${i}`, 2 - i / 10, "gus"));
  const some = openHookups(foldAll([...others, ...flood]), [], now);
  expect(hookupFor(some, [], now)?.id).toBe("kim");
  // Guests are the usual anglers: the fish of a minute ago is theirs, not that of the mate's forgotten hookup.
  const few = openHookups(foldAll([...others, ...flood.slice(-3)]), [], now);
  expect(hookupFor(few, [], now)?.id).toBe("flood 8");
  // What only a guest says takes no line out of what the helm is told.
  const ofAll = foldAll([mark("own", 3), ...others, ...flood]);
  expect(crewsHookups(ofAll, [], now).map(({ id }) => id)).toEqual(["of the mate", "own"]);
  expect(crewsHookups(ofAll, ["t.own"], now).map(({ id }) => id)).toEqual(["of the mate"]);
  const ofGus = some.filter(({ id }) => id.startsWith("flood"));
  expect(hookupFor(ofGus, [], now)?.id).toBe("flood 8");
  const offered = (chosen?: string) => toChoose(some, chosen).map(({ id }) => id);
  expect(offered()).toEqual(["of the mate", "kim", "flood 6", "flood 7", "flood 8"]);
  // That which it is said to be of stays among them.
  expect(offered("t.flood 1")).toEqual(["of the mate", "kim", "flood 1", "flood 6", "flood 7", "flood 8"]);
  you.value = undefined;
});

it("its line is in the boat for a while once its fish was landed or got off, until it is noted out again", () => {
  const on = (record: string, ago: number, rod: string, kind = "mark") =>
    mark(record, ago, { set: { rod } }, kind);
  const fate = (record: string, ago: number, set: object) => mark(record, ago, { set });
  const inBoat = (...more: Stored[]) =>
    linesIn(
      foldAll([
        on("two", 20, "2 port"),
        on("one", 19, "1 port"),
        on("old", 6, "4 port"),
        fate("old", 4, { fate: "kept" }),
        on("on still", 9, "3 port"),
        fate("two", 2.6, { fate: "kept" }),
        fate("one", 2.4, { fish: "lost" }),
        ...more,
      ]),
      now,
    ).map(({ id }) => id);
  expect(inBoat()).toEqual(["two", "one"]);
  expect(inBoat(fate("two", 1, { fate: null }))).toEqual(["one"]);
  expect(inBoat(on("touch", 1, "1 port", "touch"))).toEqual(["two"]);
  expect(inBoat(on("again", 1, "2 port"))).toEqual(["one"]);
  expect(inBoat(mark("lines", 1, { set: {} }, "lines"))).toEqual([]);
  expect(inBoat(mark("lines before", 2.5, { set: {} }, "lines"))).toEqual(["one"]);
  expect(inBoat(mark("lines", 1, { set: {} }, "lines"), mark("lines", 0.5, { strike: true }))).toEqual([
    "two",
    "one",
  ]);
});
