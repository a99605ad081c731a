import { expect, it } from "vitest";
import { about, bandNumbers } from "./show";
import { inSi } from "./units";

it("a speed known to a knot or two is told in the tenths in which every page tells it", () => {
  const band = { low: 1.2 * inSi.kn, mid: 2.9 * inSi.kn, high: 4.6 * inSi.kn };
  expect(bandNumbers("speed", band)).toMatchObject({ mid: "2.9", half: "1.7" });
  expect(about("speed", band.mid, 0.1)).toContain("2.9");
  // Of other things half and whole units are all that can be trusted.
  const depth = { low: 1.2 * inSi.ft, mid: 2.9 * inSi.ft, high: 4.6 * inSi.ft };
  expect(bandNumbers("depth", depth)).toMatchObject({ mid: "3.0", half: "2.0" });
});
