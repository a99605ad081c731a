import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, answered, fakeWorker } from "../../base/desk/fake-worker";
import type { RodAnswer, SpreadAnswer, Verdict } from "../../base/desk/types/towline.gen";
import { sampleGear, sampleSpread } from "../spread/sample";

const knot = 1852 / 3600;

let asked: Asked[];
/** Where the rods ride at the speed that is asked with. */
let verdicts: Verdict[];

const rodAnswer = (verdict: Verdict) => ({ verdict }) as RodAnswer;

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["Date", "performance"], now: 1_000_000 });
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  vi.stubGlobal("location", { hash: "" });
  vi.stubGlobal("addEventListener", () => undefined);
  asked = [];
  verdicts = ["in the band"];
  vi.stubGlobal(
    "Worker",
    fakeWorker({ spread: () => ({ rods: verdicts.map(rodAnswer) }) as SpreadAnswer }, asked),
  );
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function start(following = false) {
  const follow = await import("./follow");
  const { pace } = await import("./pace");
  const { paceSettings } = await import("./settings");
  const { spread } = await import("../spread/spread");
  const { solved } = await import("../spread/solved");
  const { gear } = await import("../gear/gear");
  const { speedDoubt } = await import("../spread/doubt");
  const { undoable } = await import("../../base/shell/undo");
  const { now } = await import("../../base/position/moment");
  gear.signal.value = sampleGear;
  spread.signal.value = { ...sampleSpread, speed: 3 * knot };
  solved.value = { spread: spread.value, rods: [rodAnswer("in the band")], aim: 2 };
  if (following) paceSettings.set({ ...paceSettings.value, follow: true });
  follow.keepFollowing();
  /** The boat goes so fast through the water, as far as is known. */
  const goes = (
    knots: number,
    more: { currentKnown?: boolean; doubt?: number; fixes?: number; mean?: number } = {},
  ) => {
    const mid = knots * knot;
    const half = 1.645 * (more.mean ?? 0.05);
    pace.value = {
      water: { low: mid - half, mid, high: mid + half },
      doubt: more.doubt ?? 0.1,
      heading: 0,
      verdict: "hold it",
      change: 0,
      groundLow: 1,
      groundHigh: 2,
      notches: 0,
      motion: {
        speed: mid,
        doubt: 0.05,
        swing: { slow: mid, fast: mid, by: 0 },
        fixes: more.fixes ?? 10,
        at: now(),
      },
      byWheel: false,
      currentKnown: more.currentKnown ?? true,
    };
  };
  const lost = () => {
    pace.value = undefined;
  };
  const knots = () => spread.value.speed / knot;
  /** Both at once: the rest of the time nothing happens by itself. */
  const after = (ms: number, then: () => void) => {
    vi.advanceTimersByTime(ms);
    then();
  };
  return { ...follow, goes, lost, knots, after, paceSettings, speedDoubt, undoable, solved };
}

it("takes the speed through the water, no more often than every three seconds, and no change too small to matter", async () => {
  const at = await start();
  at.follow();
  at.goes(3.5, { doubt: 0.131 });
  expect(at.knots()).toBeCloseTo(3.5, 9);
  expect(at.speedDoubt.value).toBeCloseTo(0.14, 12);
  at.after(1000, () => at.goes(4));
  expect(at.knots()).toBeCloseTo(3.5, 9);
  at.after(2500, () => at.goes(3.52));
  expect(at.knots()).toBeCloseTo(3.5, 9);
  at.after(3500, () => at.goes(3.61));
  expect(at.knots()).toBeCloseTo(3.6, 9);
});

it("takes no speed over ground for one through the water, and none that is old", async () => {
  const at = await start();
  at.follow();
  at.goes(3.5, { currentKnown: false });
  expect(at.knots()).toBeCloseTo(3, 9);
  at.goes(3.5);
  const before = at.knots();
  at.after(60_000, () => at.paceSettings.set({ ...at.paceSettings.value }));
  expect(at.knots()).toBe(before);
});

it("goes by no one or two fixes, nor by a mean that is off by a knot: the speed of before stays, and that is told", async () => {
  const at = await start();
  at.follow();
  at.goes(5, { fixes: 2 });
  expect(at.knots()).toBeCloseTo(3, 9);
  expect(at.unsure.value).toBe("few fixes");
  expect(at.speedDoubt.value).toBeUndefined();
  at.goes(5, { fixes: 3, mean: 0.41 });
  expect(at.knots()).toBeCloseTo(3, 9);
  expect(at.unsure.value).toBeCloseTo(1.645 * 0.41, 9);
  // How it swings is no doubt of the mean.
  at.goes(3.5, { fixes: 3, mean: 0.39, doubt: 0.9 });
  expect(at.knots()).toBeCloseTo(3.5, 9);
  expect(at.speedDoubt.value).toBeCloseTo(0.9, 9);
  expect(at.unsure.value).toBeUndefined();
  at.goes(5, { fixes: 1 });
  at.setByHand();
  expect(at.unsure.value).toBeUndefined();
});

it("doubts a speed that was followed before the app was begun anew, until it is told again", async () => {
  const at = await start(true);
  expect(at.speedDoubt.value).toBeCloseTo(0.5 * knot, 9);
  at.goes(3.5);
  expect(at.speedDoubt.value).toBeCloseTo(0.1, 9);
});

it("doubts more a speed that nothing tells any more, until it is told again", async () => {
  const at = await start();
  at.follow();
  // It was typed, and is as sure as that.
  at.goes(3.5, { currentKnown: false });
  expect(at.speedDoubt.value).toBeUndefined();
  at.goes(3.5);
  expect(at.speedDoubt.value).toBeCloseTo(0.1, 9);
  // For a moment there is too little to go by.
  at.goes(5, { fixes: 2 });
  expect(at.speedDoubt.value).toBeCloseTo(0.1, 9);
  at.goes(3.5, { mean: 0.5 });
  expect(at.speedDoubt.value).toBeCloseTo(0.5 * knot, 9);
  at.after(4000, () => at.goes(3.5));
  expect(at.speedDoubt.value).toBeCloseTo(0.1, 9);
  at.lost();
  expect(at.speedDoubt.value).toBeCloseTo(0.5 * knot, 9);
  at.setByHand();
  expect(at.speedDoubt.value).toBeUndefined();
});

it("ends when a speed is set by hand, with the way back; its doubt is then none of the receiver's", async () => {
  const at = await start();
  at.follow();
  at.goes(3.5);
  at.setByHand();
  expect(at.paceSettings.value.follow).toBe(false);
  expect(at.speedDoubt.value).toBeUndefined();
  at.undoable.value?.undo();
  expect(at.paceSettings.value.follow).toBe(true);
});

it("going back from following sets the speed of before", async () => {
  const at = await start();
  at.follow();
  const back = at.undoable.value?.undo;
  at.goes(3.8);
  back?.();
  expect(at.knots()).toBeCloseTo(3, 9);
  expect(at.paceSettings.value.follow).toBe(false);
});

it("tells of lures off the band once the speed has differed for a while, and takes it only when told to", async () => {
  const at = await start();
  verdicts = ["too deep"];
  at.goes(2);
  at.after(4000, () => at.goes(2));
  expect(asked).toEqual([]);
  at.after(4500, () => at.goes(2));
  await answered();
  expect(at.offBand.value).toBeDefined();
  expect(at.offBand.value).toMatchObject({ currentKnown: true, rods: [{ number: 1, verdict: "too deep" }] });
  expect(at.knots()).toBeCloseTo(3, 9);
  const off = at.offBand.value;
  if (off) at.takeOnce(off);
  expect(at.knots()).toBeCloseTo(2, 9);
  expect(at.offBand.value).toBeUndefined();
  at.undoable.value?.undo();
  expect(at.knots()).toBeCloseTo(3, 9);
});

it("says nothing while the speed set is in the middle half of what the boat may go", async () => {
  const at = await start();
  verdicts = ["too deep"];
  at.goes(2.6, { mean: 0.7 });
  at.after(9000, () => at.goes(2.6, { mean: 0.7 }));
  await answered();
  expect(asked).toEqual([]);
  expect(at.offBand.value).toBeUndefined();
  at.goes(2.6, { mean: 0.3 });
  at.after(9000, () => at.goes(2.6, { mean: 0.3 }));
  await answered();
  expect(at.offBand.value).toBeDefined();
});

it("says nothing where they ride as they do at the speed set, and nothing more once it is the same again", async () => {
  const at = await start();
  at.solved.value = at.solved.value && { ...at.solved.value, rods: [rodAnswer("too deep")] };
  verdicts = ["too deep"];
  at.goes(2);
  at.after(9000, () => at.goes(2));
  await answered();
  expect(asked).toHaveLength(1);
  expect(at.offBand.value).toBeUndefined();
  verdicts = ["too high"];
  at.goes(2.1);
  await answered();
  expect(at.offBand.value).toBeDefined();
  at.goes(3.05);
  expect(at.offBand.value).toBeUndefined();
});
