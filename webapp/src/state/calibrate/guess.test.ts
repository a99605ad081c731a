import { expect, it } from "vitest";
import type { Fields, Stored } from "../entry/entry";
import { isGuess, notedIn } from "./observe";

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
