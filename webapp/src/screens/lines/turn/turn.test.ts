import { expect, it } from "vitest";
import { allowed, quarter, quarters, radiusOf, stops } from "../../../state/turn/turn";
import { fromAbove, fromBeside } from "./frame";

it("goes from straight ahead to tighter and tighter", () => {
  expect(radiusOf(quarters[0], 1.67)).toBe(0);
  expect([...quarters].sort((a, b) => b - a)).toEqual([...quarters]);
  // A quarter of a circle at 1.6 m/s in 60 s: 96 m = 2πR / 4.
  expect(radiusOf(60, 1.6)).toBeCloseTo(61.115, 3);
});

it("stops at the tightest turn allowed, as it is told, and not at a wider one", () => {
  quarter.value = allowed(87.2);
  expect(quarter.value).toBe(88);
  expect(allowed(60)).toBe(60);
  expect(stops.value).toHaveLength(quarters.length + 1);
  expect(stops.value.slice(5, 9)).toEqual([120, 100, 88, 80]);
  quarter.value = 400;
  expect(stops.value.slice(0, 3)).toEqual([Number.POSITIVE_INFINITY, 400, 300]);
  quarter.value = 60;
  expect(stops.value).toEqual([...quarters]);
});

it("keeps every line inside both pictures", () => {
  const line = { number: 1, astern: [70, 20, 3], abeam: [-45, -9, 4], depth: [16, 4, -1], chosen: false };
  const above = fromAbove([line], 336, 250);
  const beside = fromBeside([line], 15, 336, 170);
  for (let i = 0; i < 3; i++) {
    for (const [at, size] of [
      [above.x(line.abeam[i] ?? 0), 336],
      [above.y(line.astern[i] ?? 0), 250],
      [beside.x(line.astern[i] ?? 0), 336],
      [beside.y(line.depth[i] ?? 0), 170],
    ] as const) {
      expect(at).toBeGreaterThanOrEqual(0);
      expect(at).toBeLessThanOrEqual(size);
    }
  }
});
