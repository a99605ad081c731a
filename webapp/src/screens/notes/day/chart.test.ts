import { expect, it } from "vitest";
import { Chart, Sign } from "./chart";

it("a pass without a course is drawn without a direction, and one to the north is not taken for it", () => {
  const of = (heading: number | undefined) =>
    Sign({ of: { kind: "pass", landed: false, heading } }).props as unknown as Record<string, unknown>;
  expect(of(undefined).d).not.toBe(of(0).d);
  expect(of(undefined)).not.toHaveProperty("transform");
  expect(of(0).transform).toBe("rotate(0)");
});

it("draws a track of more points than a call takes arguments", () => {
  const spots = Array.from({ length: 300_000 }, (_, i) => ({ at: i, lat: 40 + i * 1e-7, lon: -73 }));
  expect(() => Chart({ track: [spots], happened: [], flows: [] })).not.toThrow();
});
