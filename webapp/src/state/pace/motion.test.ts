import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, answered, fakeWorker } from "../../base/desk/fake-worker";
import type { MotionAnswer } from "../../base/desk/types/current.gen";

const usual: MotionAnswer = {
  used: 5,
  newest: 0,
  speed: 1.6,
  course: 0.8,
  courseKnown: true,
  doubt: 0.05,
  slow: 1.4,
  fast: 1.9,
  swing: 0.2,
  reckoned: false,
  water: { low: 1.1, mid: 1.6, high: 2.1 },
  heading: 0.8,
  from: "neither",
};

let asked: Asked[];
let answer: MotionAnswer | undefined;

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["Date", "performance"], now: 1_000_000 });
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  asked = [];
  answer = usual;
  vi.stubGlobal("Worker", fakeWorker({ motion: () => answer as MotionAnswer }, asked));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function start() {
  const motion = await import("./motion");
  const { track } = await import("../../base/position/track");
  const { lastFix } = await import("../../base/position/position");
  const { now } = await import("../../base/position/moment");
  motion.keepMotion();
  /** As the receiver would tell it. */
  const goes = (speed: number, course = 0.8) => {
    const at = now();
    lastFix.value = { at, fix: { lat: 41, lon: -71, accuracy: 4, sog: speed, cog: course } };
    track.value = [...track.value, { at: at.run, speed, course, accuracy: 4, moved: true }];
  };
  const seen = async () => {
    await answered();
    expect(motion.motionSeen.value).toBeDefined();
  };
  return { ...motion, goes, seen };
}

it("is asked with what was heard in the last half minute, over the span that was chosen", async () => {
  const motion = await start();
  motion.goes(9);
  vi.advanceTimersByTime(31_000);
  motion.goes(1.5);
  vi.advanceTimersByTime(1000);
  motion.goes(1.7);
  await motion.seen();
  expect(asked.at(-1)).toEqual({
    name: "motion",
    request: {
      window: 10,
      samples: [
        { time: 0, speed: 1.5, course: 0.8, accuracy: 4, moved: true },
        { time: 1, speed: 1.7, course: 0.8, accuracy: 4, moved: true },
      ],
    },
  });
  expect(motion.motionSeen.value).toMatchObject({
    speed: 1.6,
    course: 0.8,
    swing: { slow: 1.4, fast: 1.9, by: 0.2 },
  });
});

it("has no course while the boat hardly moves, and is as before where no fix counts", async () => {
  const motion = await start();
  answer = { ...usual, speed: 0.1, courseKnown: false };
  motion.goes(0.1);
  await motion.seen();
  expect(motion.motionSeen.value).not.toHaveProperty("course");
  answer = { ...usual, used: 0, speed: 0 };
  motion.goes(0);
  await answered();
  expect(asked).toHaveLength(2);
  motion.goes(0);
  await answered();
  expect(asked).toHaveLength(3);
  expect(motion.motionSeen.value?.speed).toBe(0.1);
});

it("outlives a calculator that dies", async () => {
  const motion = await start();
  answer = undefined;
  motion.goes(1.5);
  await answered();
  expect(asked).toHaveLength(1);
  answer = usual;
  motion.goes(1.6);
  await motion.seen();
});

it("holds for ten seconds by the receiver, for half an hour as typed", async () => {
  const motion = await start();
  motion.goes(1.6);
  await motion.seen();
  const fixed = motion.motion.value;
  vi.advanceTimersByTime(9000);
  expect(fixed && motion.holds(fixed)).toBe(true);
  vi.advanceTimersByTime(2000);
  expect(fixed && motion.holds(fixed)).toBe(false);
  motion.typed.set({ speed: 2, course: 1, at: Date.now() });
  const typed = motion.motion.value;
  expect(typed).toMatchObject({ speed: 2, course: 1 });
  vi.advanceTimersByTime(29 * 60_000);
  expect(typed && motion.holds(typed)).toBe(true);
  vi.advanceTimersByTime(2 * 60_000);
  expect(typed && motion.holds(typed)).toBe(false);
});

it("is the receiver's where that is fresh, and what was typed only where nothing newer was heard", async () => {
  const motion = await start();
  motion.typed.set({ speed: 2, course: 1, at: Date.now() });
  expect(motion.motion.value?.speed).toBe(2);
  vi.advanceTimersByTime(1000);
  motion.goes(1.6);
  await motion.seen();
  expect(motion.motion.value?.speed).toBe(1.6);
  vi.advanceTimersByTime(60_000);
  motion.typed.set({ speed: 2.2, course: 1, at: Date.now() });
  expect(motion.motion.value?.speed).toBe(2.2);
});

it("is reckoned from positions where the receiver tells no speed, and yields to what somebody typed", async () => {
  const motion = await start();
  const { keepTrack, spots } = await import("../../base/position/track");
  const { lastFix } = await import("../../base/position/position");
  const { now } = await import("../../base/position/moment");
  keepTrack();
  answer = { ...usual, doubt: 0.4, reckoned: true, swing: 0 };
  for (let i = 0; i < 3; i++) {
    vi.advanceTimersByTime(4000);
    lastFix.value = { at: now(), fix: { lat: 41 + i * 1e-4, lon: -71, accuracy: 6 } };
  }
  expect(spots.value).toHaveLength(3);
  await motion.seen();
  const { request } = asked.at(-1) as Asked;
  expect(request).toMatchObject({ samples: [], window: 10 });
  const { positions } = request as { positions: { time: number; lat: number }[] };
  expect(positions.map(({ time }) => time)).toEqual([0, 4, 8]);
  expect(positions[2]?.lat).toBeCloseTo((41.0002 * Math.PI) / 180, 12);
  expect(motion.motion.value).toMatchObject({ speed: 1.6, doubt: 0.4, reckoned: true });
  expect(motion.motion.value).not.toHaveProperty("swing");
  motion.typed.set({ speed: 2, course: 1, at: Date.now() });
  expect(motion.motion.value?.speed).toBe(2);
  // A receiver that tells its speed again goes before.
  answer = usual;
  motion.goes(1.6);
  await vi.waitFor(() => expect(motion.motionSeen.value?.reckoned).toBeUndefined());
  expect(motion.motion.value?.speed).toBe(1.6);
});

it("is as old as the latest fix that counted: poor ones after it make it no younger", async () => {
  const motion = await start();
  motion.goes(1.6);
  await motion.seen();
  for (let i = 0; i < 11; i++) {
    vi.advanceTimersByTime(1000);
    motion.goes(1.6);
    await answered();
  }
  expect(asked).toHaveLength(12);
  const now = motion.motion.value;
  expect(now?.at).toEqual({ wall: 1_000_000, run: performance.now() - 11_000 });
  expect(now && motion.holds(now)).toBe(false);
});

it("says what it waits for while fixes come: better ones, or time to reckon", async () => {
  const motion = await start();
  const { keepTrack } = await import("../../base/position/track");
  const { lastFix } = await import("../../base/position/position");
  const { now } = await import("../../base/position/moment");
  keepTrack();
  answer = { ...usual, used: 0 };
  const fix = (accuracy: number, i = 0) => {
    lastFix.value = { at: now(), fix: { lat: 41 + i * 1e-4, lon: -71, accuracy } };
  };
  expect(motion.awaited()).toBeUndefined();
  fix(200);
  expect(motion.awaited()).toEqual({ poor: 200 });
  vi.advanceTimersByTime(1000);
  fix(6);
  expect(motion.awaited()).toBe("reckoning");
  // Too few of them for long, or none any more.
  vi.advanceTimersByTime(21_000);
  fix(6, 1);
  expect(motion.awaited()).toBeUndefined();
  fix(200, 2);
  expect(motion.awaited()).toEqual({ poor: 200 });
  vi.advanceTimersByTime(11_000);
  expect(motion.awaited()).toBeUndefined();
});

it("takes a fix that came late as one of the start", async () => {
  const { samplesOf } = await start();
  const velocity = { speed: 99, course: 1, accuracy: 1e9, moved: false };
  expect(
    samplesOf([
      { ...velocity, at: 5000 },
      { ...velocity, at: 4000 },
    ]),
  ).toEqual([
    { time: 0, speed: 30, course: 1, accuracy: 1e6, moved: false },
    { time: 0, speed: 30, course: 1, accuracy: 1e6, moved: false },
  ]);
});
