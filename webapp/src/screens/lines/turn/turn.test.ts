import { expect, it } from "vitest";
import { quarterOf, quarters, radiusOf, widerThan } from "../../../state/turn/turn";
import { fromAbove, fromBeside } from "./frame";

it("goes from straight ahead to tighter and tighter", () => {
  expect(radiusOf(quarterOf(0), 1.67)).toBe(0);
  expect([...quarters].sort((a, b) => b - a)).toEqual([...quarters]);
  // A quarter of a circle at 1.6 m/s in 60 s: 96 m = 2πR / 4.
  expect(radiusOf(60, 1.6)).toBeCloseTo(61.115, 3);
});

it("takes for the tightest turn allowed the next that is no tighter", () => {
  expect(quarterOf(widerThan(52))).toBe(60);
  expect(quarterOf(widerThan(60))).toBe(60);
  expect(widerThan(1e9)).toBe(0);
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
