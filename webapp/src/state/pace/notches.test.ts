import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";

beforeEach(() => {
  vi.resetModules();
  vi.stubGlobal("Worker", class {});
  vi.useFakeTimers({ toFake: ["performance", "Date", "setTimeout", "clearTimeout"] });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function boat() {
  const motion = await import("./motion");
  const pace = await import("./notches");
  const now = await import("../../base/position/moment");
  const goes = (speed: number) => {
    motion.motionSeen.value = {
      speed,
      doubt: 0.05,
      swing: { slow: speed, fast: speed, by: 0.1 },
      at: now.now(),
    };
  };
  return { ...pace, goes };
}

it("learns the change that follows a notch, once the boat has settled", async () => {
  const { goes, notched, notches, watching } = await boat();
  goes(1.5);
  notched();
  expect(watching.value).toEqual({ before: 1.5 });
  vi.advanceTimersByTime(15_000);
  goes(1.62);
  expect(notches.value).toEqual([]);
  vi.advanceTimersByTime(5000);
  expect(notches.value).toEqual([expect.closeTo(0.12, 9)]);
  expect(watching.value).toBeUndefined();
});

it("begins anew when another notch follows at once, and learns nothing from a lost speed", async () => {
  const { goes, notched, notches } = await boat();
  goes(1.5);
  notched();
  vi.advanceTimersByTime(10_000);
  goes(1.6);
  notched();
  vi.advanceTimersByTime(12_000);
  expect(notches.value).toEqual([]);
  // The last fix is 20 s old by now.
  vi.advanceTimersByTime(8000);
  expect(notches.value).toEqual([]);
});

it("has nothing to go by without a speed of now", async () => {
  const { goes, notched, watching } = await boat();
  notched();
  expect(watching.value).toBeUndefined();
  goes(1.5);
  vi.advanceTimersByTime(30_000);
  notched();
  expect(watching.value).toBeUndefined();
});
