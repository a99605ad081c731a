import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { clockAhead } from "../../../base/phone/clock";
import { foldAll } from "../../entry/fold";
import { latestFirst } from "./latest";

const noon = Date.UTC(2026, 6, 4, 16);
const minute = 60_000;
const day = 1440 * minute;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["Date"], now: noon });
});
afterEach(() => {
  vi.useRealTimers();
  clockAhead.fill(0);
});

const noted = (record: string, at: number, own = false) => ({
  ...{ id: record, record, kind: "note", trip: "t", prev: [], set: {}, at, n: 1 },
  ...(own ? { own: true as const } : { by: "gus", byName: "Gus" }),
});

/** How they stand, after how far ahead this phone's clock was found. */
function order(ahead: number, ...all: ReturnType<typeof noted>[]): string[] {
  clockAhead.fill(ahead);
  return foldAll(all)
    .sort(latestFirst)
    .map(({ id }) => id);
}

it("what is still to come stands below all that was noted by now, and a few minutes ahead do not count", () => {
  expect(
    order(
      0,
      noted("in 11 min", noon + 11 * minute),
      noted("in 20 h", noon + 20 * 60 * minute),
      noted("of 2100", Date.UTC(2100, 0, 1)),
      noted("now", noon, true),
      noted("a day ago", noon - day),
      noted("in 5 min", noon + 5 * minute),
    ),
  ).toEqual(["in 5 min", "now", "a day ago", "of 2100", "in 20 h", "in 11 min"]);
});

it("goes by the boat's clock, where this phone's is a day ahead or behind", () => {
  const all = [
    noted("own, now", noon, true),
    noted("own, an hour ago", noon - 60 * minute, true),
    noted("another's, of then", noon - day - 30 * minute),
    noted("another's, to come", noon - day + 20 * minute),
  ];
  // A day ahead: what this phone notes now is of now all the same, among what others note.
  expect(order(day, ...all)).toEqual([
    "own, now",
    "another's, of then",
    "own, an hour ago",
    "another's, to come",
  ]);
  // A day behind: what others note now is not still to come.
  expect(order(-day, noted("another's, now", noon + day), noted("own", noon, true))).toEqual([
    "another's, now",
    "own",
  ]);
});
