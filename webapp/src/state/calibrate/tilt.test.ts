// @vitest-environment node
import { afterEach, expect, it, vi } from "vitest";
import { gather, heldFor, mayFeel } from "./tilt";

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

it("gathers gravity by the phone's axes for ten seconds, and nothing of a phone that tells none", () => {
  vi.useFakeTimers();
  vi.stubGlobal("addEventListener", (_: string, hear: typeof feel) => {
    feel = hear;
  });
  vi.stubGlobal("removeEventListener", () => {
    feel = () => undefined;
  });
  let feel: (event: object) => void = () => undefined;
  const done = vi.fn();
  gather(done);
  feel({ accelerationIncludingGravity: { x: 0.1, y: -1.2, z: 9.7 } });
  feel({ accelerationIncludingGravity: { x: null, y: 1.1, z: 9.6 } });
  feel({ accelerationIncludingGravity: { x: 1, y: null, z: 1 } });
  feel({ accelerationIncludingGravity: null });
  vi.advanceTimersByTime(heldFor - 1);
  expect(done).not.toHaveBeenCalled();
  vi.advanceTimersByTime(1);
  feel({ accelerationIncludingGravity: { x: 9, y: 9, z: 9 } });
  expect(done.mock.calls).toEqual([[{ across: [0.1, 0], along: [-1.2, 1.1], up: [9.7, 9.6] }]]);
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
