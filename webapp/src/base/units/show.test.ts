import { expect, it } from "vitest";
import { settings } from "./settings";
import { about, bandNumbers, rounded, roundsToNothing } from "./show";
import { inSi } from "./units";

it("a speed known to a knot or two is told in the tenths in which every page tells it", () => {
  const band = { low: 1.2 * inSi.kn, mid: 2.9 * inSi.kn, high: 4.6 * inSi.kn };
  expect(bandNumbers("speed", band)).toMatchObject({ mid: "2.9", half: "1.7" });
  expect(about("speed", band.mid, 0.1)).toContain("2.9");
  // Of other things half and whole units are all that can be trusted.
  const depth = { low: 1.2 * inSi.ft, mid: 2.9 * inSi.ft, high: 4.6 * inSi.ft };
  expect(bandNumbers("depth", depth)).toMatchObject({ mid: "3.0", half: "2.0" });
});

/** By hand: half of a step of the dial, of 1 ft, 0.5 m or 0.25 fm, is 0.152, 0.25 or 0.229 m. */
it.each([
  ["ft", 0.15, 0.16],
  ["m", 0.24, 0.26],
  ["fm", 0.22, 0.24],
] as const)("what rounds to nothing in %s is known for it", (depth, less, more) => {
  const before = settings.value;
  settings.set({ ...before, units: { ...before.units, depth } });
  for (const sign of [1, -1]) {
    expect(roundsToNothing("depth", sign * less)).toBe(true);
    expect(roundsToNothing("depth", sign * more)).toBe(false);
  }
  expect(rounded("depth", less)).toMatch(/^0(\.0+)?\s/);
  expect(rounded("depth", more)).not.toMatch(/^0(\.0+)?\s/);
  settings.set(before);
});
