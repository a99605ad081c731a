// @vitest-environment node
import { expect, it } from "vitest";
import { gathered, tiltOf } from "./tilt";

const degrees = (rad: number | undefined) => ((rad ?? Number.NaN) * 180) / Math.PI;

// Components of gravity along the axes of the W3C's Device Orientation and Motion specification, by trigonometry.
it("is the angle of the long edge against level, whichever end is up and however the phone is rolled", () => {
  expect(degrees(tiltOf(0, 9.81, 0))).toBeCloseTo(90, 6);
  expect(degrees(tiltOf(0, 0, -9.81))).toBeCloseTo(0, 6);
  const g = 9.81;
  const seven = (7 * Math.PI) / 180;
  expect(degrees(tiltOf(0, -g * Math.sin(seven), g * Math.cos(seven)))).toBeCloseTo(7, 6);
  expect(degrees(tiltOf(g * Math.cos(seven), g * Math.sin(seven), 0))).toBeCloseTo(7, 6);
  expect(tiltOf(null, null, null)).toBeUndefined();
});

it("takes mean and spread of the swing, and nothing from too little", () => {
  const swing = Array.from({ length: 400 }, (_, i) => 0.12 + 0.02 * Math.sin(i / 7));
  const read = gathered(swing);
  expect(read?.angle).toBeCloseTo(0.12, 2);
  expect(read?.spread).toBeCloseTo(0.02 / Math.SQRT2, 2);
  expect(gathered([0.1, 0.1])).toBeUndefined();
});
