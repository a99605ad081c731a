import { expect, it } from "vitest";
import { course, lasting, place } from "./when";

it.each([
  // Degrees and decimal minutes by hand: 41.2542 = 41° + 0.2542 × 60′ = 15.252′.
  [41.2542, -71.5, "41°15.252′N 071°30.000′W"],
  [-0.0001, 0.0001, "00°00.006′S 000°00.006′E"],
  [41.9999999, 179.9999999, "42°00.000′N 180°00.000′E"],
])("%d, %d is %s", (lat, lon, said) => expect(place(lat, lon)).toBe(said));

it.each([
  [0, "000°"],
  [Math.PI / 4, "045°"],
  [-Math.PI / 2, "270°"],
  [2 * Math.PI - 0.001, "000°"],
])("a course of %d rad is %s", (radians, said) => expect(course(radians)).toBe(said));

it.each([
  [95.4, "95 s"],
  [99.6, "1 min 40 s"],
  [119.7, "2 min"],
  [400, "6 min 40 s"],
])("%d s are %s", (s, said) => expect(lasting(s).replaceAll("\u00a0", " ")).toBe(said));
