import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { Pace } from "../pace/pace";

/** How often it was felt. */
let felt = 0;

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({
    toFake: ["Date", "performance", "setInterval", "clearInterval", "setTimeout", "clearTimeout"],
    now: 1_000_000,
  });
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  vi.stubGlobal("navigator", { vibrate: () => felt++ });
  felt = 0;
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function start() {
  const alarms = await import("./alarms");
  const { pace } = await import("../pace/pace");
  const { set } = await import("../pace/settings");
  const { taken } = await import("../instruments/taken");
  taken.signal.value = { depth: false, speed: true, warmth: false, asked: true };
  set({ wanted: { low: 1.5, high: 1.8 } });
  alarms.keepAlarming();
  /** So many seconds at a speed, told every fifth. */
  const go = (low: number, mid: number, high: number, seconds: number) => {
    for (let i = 0; i < seconds; i += 5) {
      const at = { wall: Date.now(), run: performance.now() };
      const motion = { speed: mid, course: 0, doubt: 0.1, heard: true, at };
      pace.value = { water: { low, mid, high }, motion, currentKnown: true, byWheel: true } as Pace;
      vi.advanceTimersByTime(5000);
    }
  };
  return { ...alarms, go };
}

it("tells of a speed that is outside the wanted, all of its band, once it was so for a minute, and no more when it is not", async () => {
  const { go, alarms, tooLongOutside } = await start();
  go(1.9, 2.2, 2.5, 60);
  expect([alarms.value, felt]).toEqual([[], 0]);
  go(1.9, 2.2, 2.5, 5);
  expect(felt).toBe(1);
  expect(alarms.value).toEqual(["speed"]);
  expect(tooLongOutside.value).toBe("fast");
  // It may be as wanted: the minute begins anew.
  go(1.7, 2.0, 2.3, 5);
  expect(alarms.value).toEqual([]);
  go(1.0, 1.2, 1.4, 70);
  expect(tooLongOutside.value).toBe("slow");
});

it("is put off for ten minutes, and told again after", async () => {
  const { go, alarms, silence, isSilent, putOff } = await start();
  go(1.9, 2.2, 2.5, 70);
  silence("speed");
  const before = felt;
  expect([alarms.value, isSilent("speed"), isSilent("rise")]).toEqual([["speed"], true, false]);
  go(1.9, 2.2, 2.5, putOff / 1000 - 5);
  expect(felt).toBe(before);
  go(1.9, 2.2, 2.5, 10);
  expect(felt).toBeGreaterThan(before);
  expect(isSilent("speed")).toBe(false);
  expect(alarms.value).toEqual(["speed"]);
});
