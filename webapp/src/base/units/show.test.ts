import { expect, it } from "vitest";
import { settings } from "./settings";
import { about, amount, bandNumbers, exact, lawful, rounded, roundsToNothing } from "./show";
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

/** By hand, 1 ft = 0.3048 m and 1 in = 2.54 cm exactly: 18 m are 59.06 ft, 15 m 49.21 ft, 64 cm 25.20 in, 50 ft 15.24 m, 60 ft 18.29 m. */
it.each([
  ["ft", "depth", 18, "59"],
  ["ft", "depth", 15, "49"],
  ["ft", "depth", 50.5 * 0.3048, "50.5"],
  ["ft", "line", 60, "197"],
  ["ft", "ruler", 0.64, "25.2"],
  ["ft", "size", 8.25 * 0.0254, "8.25"],
  ["ft", "size", 0.2, "7.9"],
  ["ft", "ruler", 28.25 * 0.0254, "28.25"],
  ["m", "depth", 50 * 0.3048, "15.2"],
  ["m", "depth", 60 * 0.3048, "18.3"],
  ["m", "depth", 6.24, "6.2"],
  ["m", "depth", 6.26, "6.3"],
  ["m", "depth", 18.03, "18"],
  ["m", "depth", 18.4, "18.4"],
  ["fm", "depth", 18, "9.75"],
] as const)("in %s, a %s of %d m is said as %s", (unit, quantity, si, said) => {
  const before = settings.value;
  settings.set({ ...before, units: { ...before.units, depth: unit, line: unit } });
  expect(exact(quantity, si)).toBe(said);
  expect(amount(quantity, si).startsWith(`${said}\u00a0`)).toBe(true);
  settings.set(before);
});

/** By hand, 1 in = 2.54 cm exactly: 28 in are 71.12 cm, 31 in 78.74 cm, 0.2 mm 0.02 cm, 45 cm 17.72 in. */
it.each([
  ["m", 28 * 0.0254, "71.12"],
  ["m", 31 * 0.0254, "78.74"],
  ["m", 0.0002, "0.02"],
  ["ft", 28 * 0.0254, "28"],
  ["ft", 0.45, "17.72"],
] as const)("in %s, a limit of %d m is said as %s", (line, si, said) => {
  const before = settings.value;
  settings.set({ ...before, units: { ...before.units, line } });
  expect(lawful(si)).toBe(`${said}\u00a0${line === "m" ? "cm" : "in"}`);
  settings.set(before);
});
