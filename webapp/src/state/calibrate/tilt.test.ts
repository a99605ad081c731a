// @vitest-environment node
import { afterEach, expect, it, vi } from "vitest";
import { gathered, mayFeel, tiltOf } from "./tilt";

afterEach(() => vi.unstubAllGlobals());

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

// As the W3C's Device Orientation and Motion specification has it: asked within a tap, "granted" or "denied"; a browser
// that asks nobody has no such function.
it.each([
  ["a phone that asks, and is allowed to", { requestPermission: async () => "granted" }, true],
  ["one that is not", { requestPermission: async () => "denied" }, false],
  [
    "one that was asked outside a tap",
    { requestPermission: () => Promise.reject(new DOMException("no tap", "NotAllowedError")) },
    false,
  ],
  ["one that asks nobody", {}, true],
  ["one without a sensor", undefined, false],
])("may feel its tilt or not: %s", async (_, motion, may) => {
  vi.stubGlobal("DeviceMotionEvent", motion);
  expect(await mayFeel()).toBe(may);
});
