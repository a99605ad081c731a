import { describe, expect, it } from "vitest";
import { roundTimes } from "./axis";

const minute = 60_000;
const hour = 60 * minute;

describe("the hours of a drawing", () => {
  // Of minutes past a full hour, so far from it as a short trip begins and ends.
  const read = (from: number, to: number) => roundTimes(from * minute, to * minute).map((at) => at / minute);

  it("are marked on a trip that holds no full hour", () => {
    expect(read(7, 31)).toEqual([10, 15, 20, 25, 30]);
    expect(read(21, 34)).toEqual([25, 30]);
    expect(read(2.5, 3.5)).toEqual([3]);
  });

  it("are full hours on a long one, and never more than can be read", () => {
    expect(read(50, 50 + 8 * 60)).toEqual([120, 240, 360, 480]);
    for (let long = minute; long < 50 * hour; long *= 1.3)
      for (const from of [0, 7 * minute, 3.3 * hour]) {
        const marks = roundTimes(from, from + long);
        expect(marks.length).toBeGreaterThan(0);
        expect(marks.length).toBeLessThanOrEqual(5);
      }
  });
});
