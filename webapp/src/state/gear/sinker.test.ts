import { describe, expect, it } from "vitest";
import { inSi } from "../../base/units/units";
import { sinkerAfter } from "./sinker";

const oz = (n: number) => n * inSi.oz;

/** Steps so many times, and what it comes by, in oz. */
function steps(from: number, by: 1 | -1, times: number, sizes: number[]): number[] {
  const seen: number[] = [];
  let at = oz(from);
  for (let i = 0; i < times; i++) {
    at = sinkerAfter(at, by, sizes.map(oz), false);
    seen.push(Math.round((at / inSi.oz) * 100) / 100);
  }
  return seen;
}

describe("the sinker's dial", () => {
  it("goes through the sizes aboard, each once, in either direction", () => {
    expect(steps(6, 1, 3, [20, 8, 12, 8])).toEqual([8, 12, 20]);
    expect(steps(20, -1, 2, [20, 8, 12])).toEqual([12, 8]);
  });

  it("goes on beyond them by 2 oz, from a pound by 4", () => {
    expect(steps(20, 1, 2, [20])).toEqual([24, 28]);
    expect(steps(8, -1, 5, [8])).toEqual([6, 4, 2, 2, 2]);
    expect(steps(12, 1, 4, [])).toEqual([14, 16, 20, 24]);
    expect(steps(20, -1, 3, [])).toEqual([16, 14, 12]);
  });

  it("comes from a typed weight back to what is sold", () => {
    expect(steps(11.3, 1, 2, [])).toEqual([12, 14]);
    expect(steps(21, -1, 2, [])).toEqual([20, 16]);
    expect(sinkerAfter(0.33, 1, [], true)).toBeCloseTo(0.35, 9);
    expect(sinkerAfter(0.6, 1, [], true)).toBeCloseTo(0.7, 9);
  });

  it("gives no size of nothing, and never stands still upwards", () => {
    expect(steps(2, -1, 1, [0])).toEqual([2]);
  });
});
