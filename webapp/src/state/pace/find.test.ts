import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { answered, fakeWorker } from "../../base/desk/fake-worker";
import type { Answer } from "../../base/desk/types/current.gen";

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["Date", "performance"], now: 1_000_000_000 });
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  const drift = () => ({ why: "headings too close", quality: "none", arc: 1, used: 3, aside: [] }) as Answer;
  vi.stubGlobal("Worker", fakeWorker({ drift }, []));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** The page as it is loaded, also for the second time. */
async function load() {
  vi.resetModules();
  const find = await import("./find");
  const { track } = await import("../../base/position/track");
  await find.keptRun.load();
  find.keepFinding();
  const goes = (speed: number, course: number) => {
    vi.advanceTimersByTime(2000);
    track.value = [...track.value, { at: performance.now(), speed, course, accuracy: 4, moved: true }];
  };
  return { ...find, goes };
}

it("a turn goes on after a reload, with its fixes and their times", async () => {
  const page = await load();
  page.goes(1.5, 0);
  page.begin("turn");
  for (let i = 1; i <= 6; i++) page.goes(1.6, i / 4);
  expect(page.run.value?.samples.map(({ time }) => time)).toEqual([2, 4, 6, 8, 10, 12]);
  await answered();
  await page.keptRun.settled();
  const again = await load();
  // At most what was heard since it was kept last is lost.
  const kept = again.run.value?.samples.length ?? 0;
  expect(kept).toBeGreaterThanOrEqual(4);
  again.goes(1.7, 2);
  expect(again.run.value?.samples).toHaveLength(kept + 1);
  expect(again.run.value?.samples.at(-1)).toMatchObject({ time: 14, course: 2, speed: 1.7 });
});

it("legs are kept one by one; a run that was stopped, or that nothing was added to for long, is over", async () => {
  const page = await load();
  const { motionSeen } = await import("./motion");
  const { now } = await import("../../base/position/moment");
  page.begin("legs");
  motionSeen.value = {
    speed: 1.6,
    course: 0.5,
    doubt: 0.05,
    swing: { slow: 1.5, fast: 1.7, by: 0.1 },
    at: now(),
  };
  expect(page.takeLeg()).toBe(true);
  await page.keptRun.settled();
  const again = await load();
  expect(again.run.value?.samples).toMatchObject([{ speed: 1.6, course: 0.5 }]);
  again.stop();
  await again.keptRun.settled();
  expect((await load()).run.value).toBeUndefined();

  const late = await load();
  late.begin("legs");
  await late.keptRun.settled();
  vi.advanceTimersByTime(601_000);
  expect((await load()).run.value).toBeUndefined();
});
