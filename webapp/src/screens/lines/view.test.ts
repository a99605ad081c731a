import { describe, expect, it } from "vitest";
import type { RodAnswer } from "../../base/desk/types/towline.gen";
import type { Solved } from "../../state/spread/solved";
import { depthMarks, spaced, viewOf } from "./view";

const rod = (astern: number, depth: number, tip: number) =>
  ({
    astern,
    depth: { low: depth - 2, mid: depth, high: depth + 2 },
    curve: { astern: [astern, 0], depth: [depth, -tip], low: [], high: [] },
    branch: { astern: [], depth: [], low: [], high: [] },
  }) as unknown as RodAnswer;

const solved = (bottom: number, ...rods: RodAnswer[]) => ({ spread: { bottom }, rods }) as unknown as Solved;

describe("the picture's scales", () => {
  it.each([
    [360, 185],
    [840, 400],
    [320, 120],
  ])("hold everything on %d × %d", (width, height) => {
    const view = viewOf(solved(15, rod(70, 13, 2), rod(20, 22, 1)), width, height);
    for (const x of [view.x(0), view.x(70)]) expect(x > 0 && x < width).toBe(true);
    for (const y of [view.y(-2), view.y(15), view.y(22)]) expect(y >= 0 && y <= height).toBe(true);
  });

  it("say how much taller things are drawn than long, and keep to it", () => {
    const view = viewOf(solved(15, rod(70, 13, 2)), 360, 185);
    expect(view.down / view.across).toBeCloseTo(view.exaggeration, 9);
    expect((view.exaggeration * 4) % 1).toBe(0);
    expect(view.y(15) - view.y(5)).toBeCloseTo(10 * view.down, 9);
  });

  it("bear a spread without any answer", () => {
    const view = viewOf(solved(15), 360, 185);
    expect(Number.isFinite(view.x(10)) && Number.isFinite(view.y(10))).toBe(true);
  });

  it("mark depths in round numbers of the unit, apart enough to be read", () => {
    const view = viewOf(solved(15, rod(70, 13, 2)), 360, 185);
    const feet = depthMarks(view, 15, 0.3048).map((d) => d / 0.3048);
    expect(feet.length).toBeGreaterThan(0);
    for (const mark of feet) expect(mark % 5).toBeCloseTo(0, 9);
  });
});

describe("numbers under the picture", () => {
  it("stay where they are when there is room", () => expect(spaced([100, 200], 27, 15)).toEqual([100, 200]));

  it("never lie on each other and never leave the picture", () => {
    const at = spaced([20, 22, 21, 24, 60, 300], 27, 15);
    const sorted = [...at].sort((a, b) => a - b);
    expect(sorted[0]).toBeGreaterThanOrEqual(15);
    for (let i = 1; i < sorted.length; i++) {
      expect((sorted[i] as number) - (sorted[i - 1] as number)).toBeGreaterThanOrEqual(27);
    }
    expect(at[5]).toBe(300);
  });
});
