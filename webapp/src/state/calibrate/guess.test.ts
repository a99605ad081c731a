import { afterEach, expect, it } from "vitest";
import type { Fields, Stored } from "../entry/entry";
import { you } from "../log/log";
import { isGuess, notedIn } from "./observe";

afterEach(() => {
  you.value = undefined;
});

const rod = "1 port rigger";
let n = 0;
const entry = (record: string, by: string, set: Fields, more: Partial<Stored> = {}): Stored => ({
  ...{ id: `e${++n}`, record, kind: "touch", trip: "t", prev: [], set, at: 1e12, n, by, byName: by },
  ...more,
});
const touched = (record: string, by: string, more: Partial<Stored> = {}, begun = true) =>
  entry(record, by, { rod, bottom: 14, lineOut: 60, speed: 1.6, asked: { name: rod, begun } }, more);

const guesses = (...entries: Stored[]) => {
  const all = notedIn(entries);
  return all.filter((one) => isGuess(one, all)).map(({ id }) => id);
};

it("a touch of one other phone at a depth that nobody set waits", () => {
  expect(guesses(touched("a", "gus"))).toEqual(["a"]);
  expect(guesses(touched("a", "gus"), touched("b", "gus"))).toHaveLength(2);
});

it("this phone's own counts here, and one at a depth or on a rig that was set, or of an older app", () => {
  expect(guesses(touched("a", "me", { own: true }))).toEqual([]);
  expect(guesses(touched("a", "gus", {}, false))).toEqual([]);
  expect(guesses(entry("a", "gus", { rod, bottom: 14, asked: { name: rod } }))).toEqual([]);
  expect(guesses(entry("a", "gus", { rod, bottom: 14, asked: null }))).toEqual([]);
});

it("it counts once somebody has said its depth, if only by taking it as it is", () => {
  expect(guesses(touched("a", "gus"), entry("a", "gus", { bottom: 17 }))).toEqual([]);
  expect(guesses(touched("a", "gus"), entry("a", "ann", { bottom: 14 }))).toEqual([]);
  // What else is said of it says nothing of its depth.
  expect(guesses(touched("a", "gus"), entry("a", "ann", { speed: 1.5 }))).toEqual(["a"]);
});

it("it counts if somebody else felt the same: the same rod, at the same time", () => {
  expect(guesses(touched("a", "gus"), touched("b", "ann", { at: 1e12 + 60_000 }))).toEqual([]);
  expect(guesses(touched("a", "gus"), touched("b", "ann", { at: 1e12 + 600_000 }))).toHaveLength(2);
  expect(guesses(touched("a", "gus"), touched("b", "ann", { kind: "clear" }))).toHaveLength(2);
  const other = entry("b", "ann", { rod: "2", bottom: 14, asked: { name: "2", begun: true } });
  expect(guesses(touched("a", "gus"), other)).toHaveLength(2);
});

const [ann, bea, gus] = ["ann", "bea", "gus"] as const;
const aboard = (own: "skipper" | "guest") => {
  const may = own === "guest" ? [] : (["trips", "crew"] as const);
  you.value = { device: "me", name: "me", role: own, may: [...may], crew: [ann, bea] };
};

it("a guest's waits whatever it says of itself, and one that a guest brought; one of the crew's that was set does not", () => {
  aboard("skipper");
  for (const begun of [true, false]) expect(guesses(touched("a", gus, {}, begun))).toEqual(["a"]);
  expect(guesses(entry("a", gus, { rod, bottom: 14, asked: null }))).toEqual(["a"]);
  expect(guesses(touched("a", ann, { via: gus }, false))).toEqual(["a"]);
  expect(guesses(touched("a", ann, {}, false), touched("b", ann, { via: bea }, false))).toEqual([]);
});

it("a guest's counts once one of the crew has taken it, until a guest says something else of it", () => {
  aboard("skipper");
  const [first, taken] = [touched("a", gus), entry("a", ann, { bottom: 14 })];
  expect(guesses(first, entry("a", gus, { bottom: 17 }))).toEqual(["a"]);
  expect(guesses(first, taken)).toEqual([]);
  expect(guesses(first, entry("a", "me", { bottom: 14 }, { own: true }))).toEqual([]);
  expect(guesses(first, taken, entry("a", gus, { lineOut: 90 }))).toEqual(["a"]);
  expect(guesses(first, entry("a", ann, { speed: 1.5 }))).toEqual(["a"]);
});

it("a guest's counts where one of the crew felt the same, and not where another guest did or it says something else", () => {
  aboard("skipper");
  expect(guesses(touched("a", gus), touched("b", ann, {}, false))).toEqual([]);
  expect(guesses(touched("a", gus), touched("b", "gil"))).toEqual(["a", "b"]);
  const forged = (set: Fields) =>
    entry("a", gus, { rod, bottom: 14, lineOut: 60, speed: 1.6, asked: { name: rod }, ...set });
  for (const [field, value] of Object.entries({ bottom: 6, lineOut: 100, speed: 3 }))
    expect(guesses(forged({ [field]: value }), touched("b", ann, {}, false))).toEqual(["a"]);
});

it("a guest's phone learns from its own, and not from another guest's", () => {
  aboard("guest");
  expect(guesses(touched("a", "me", { own: true }), touched("b", gus, { at: 2e12 }, false))).toEqual(["b"]);
});
