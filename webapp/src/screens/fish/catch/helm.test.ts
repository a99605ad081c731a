import { expect, it } from "vitest";
import { en } from "../../../base/text/spoken/en";
import { freeWords, helmWords } from "./helm-words";

const t = en.fish.land.helm;
const kn = 1852 / 3600;
const answer = (slowest: number, takeIn: number[]) => ({ slowest, takeIn, rods: [] });

it("tells the slowest speed in knots, rounded to the safe side, and in which order to take in", () => {
  expect(helmWords(answer(2.41 * kn, [2, 0]), ["1 port", "2 corner", "3 starboard"], 3.2 * kn, [])).toBe(
    t.notSlower("2.5\u00a0kn", "3 starboard", "3 starboard, 1 port"),
  );
});

it("a line that may lie on the bottom at the speed of now comes in first", () => {
  expect(helmWords(answer(3.4 * kn, [1]), ["1", "2"], 3.2 * kn, [])).toBe(t.already("2", ""));
});

it("dead slow only where nothing comes down", () => {
  expect(helmWords(answer(0, []), ["1"], 3.2 * kn, [])).toBe(t.free);
  const both = t.freeBut("2 corner, 3 starboard");
  expect(helmWords(answer(0, []), ["1"], 3.2 * kn, ["2 corner", "3 starboard"])).toBe(both);
  expect(both).toContain("2 corner, 3 starboard");
  // Where a fish is on every line, too.
  expect(freeWords(["2 corner", "3 starboard"])).toBe(both);
});
