import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, answered, fakeWorker } from "../../base/desk/fake-worker";
import type { WheelAnswer } from "../../base/desk/types/current.gen";

const answer: WheelAnswer = {
  state: "runs",
  learned: true,
  used: 20,
  water: { low: 1.6, mid: 1.7, high: 1.8 },
  factor: { low: 1, mid: 1.1, high: 1.2 },
  zero: { low: -0.1, mid: 0, high: 0.1 },
  known: { zero: 0, factor: 1.2, zeroDoubt: 0.05, factorDoubt: 0.02, tied: -0.5, age: 0 },
  keep: { zero: 0, factor: 1.1, zeroDoubt: 0.05, factorDoubt: 0.04, tied: -0.5, age: 0 },
  current: { set: 1, drift: 0.3, doubtEast: 0.1, doubtNorth: 0.1, tied: 0, age: 0 },
};

let asked: Asked[];
let told: WheelAnswer;

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["Date", "performance"], now: 1_000_000 });
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  asked = [];
  told = answer;
  vi.stubGlobal("Worker", fakeWorker({ wheel: () => told }, asked));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function start() {
  const heard = await import("../instruments/heard");
  const { take } = await import("../instruments/taken");
  const wheel = await import("./wheel");
  wheel.keepWheel();
  const of = (value: number) => ({ value, age: 0, holds: 3, from: "mast" });
  const say = async (seconds: number, ground = true) => {
    for (let i = 0; i < seconds; i++) {
      vi.advanceTimersByTime(1000);
      const values = {
        waterSpeed: of(1.5),
        ...(ground && { groundSpeed: of(1.9), groundCourse: of(0.5) }),
      };
      heard.heard.value = heard.readEvent(JSON.stringify({ values, run: 0 }));
      await answered();
    }
  };
  return { ...wheel, take, say, heard };
}

it("is asked about once somebody goes by it, with the fixes of the same moments", async () => {
  const { say, take, currentByWheel } = await start();
  await say(5);
  expect(asked).toEqual([]);
  take({ speed: true });
  await say(10);
  const { samples, known } = (asked.at(-1) as Asked).request as { samples: object[]; known?: object };
  expect(samples.length).toBeGreaterThan(7);
  expect(samples.at(-1)).toMatchObject({ speed: 1.9, course: 0.5, wheel: 1.5 });
  expect(known).toBeUndefined();
  expect(currentByWheel()).toEqual(answer.current);
});

it("teaches what is kept five minutes at a time, each counted once, and without what was known of the current", async () => {
  const { say, take, wheelKept } = await start();
  take({ speed: true });
  await say(280);
  expect(wheelKept.value).toBeNull();
  await say(30);
  expect(wheelKept.value).toMatchObject({ factor: 1.1, zeroDoubt: 0.05 });
  const { samples, known } = (asked.at(-1) as Asked).request as { samples: object[]; known?: object };
  expect(samples.length).toBeLessThan(20);
  expect(known).toMatchObject({ factor: 1.1 });
});

it("that stands has no word in the speed, and teaches nothing", async () => {
  told = { ...answer, state: "stands", learned: false };
  const { say, take, wheelKept, wheelNow, currentByWheel } = await start();
  take({ speed: true });
  await say(310);
  expect(wheelNow.value?.state).toBe("stands");
  expect(currentByWheel()).toBeUndefined();
  expect(wheelKept.value).toBeNull();
});

it("is asked nothing without a velocity over ground, and says nothing once it falls silent", async () => {
  const { say, take, heard, wheelNow } = await start();
  take({ speed: true });
  await say(10, false);
  expect(asked).toEqual([]);
  await say(10);
  expect(wheelNow.value).toBeDefined();
  vi.advanceTimersByTime(7000);
  heard.second.value++;
  expect(wheelNow.value).toBeUndefined();
});

it("goes by nothing that an app kept which let the foretold current count anew, and by what it keeps itself", async () => {
  const { wheelKept } = await start();
  const { documentsNow, takeDocument } = await import("../../base/store/kept");
  const kept = { zero: 0, factor: 1.2, zeroDoubt: 0.05, factorDoubt: 0.02, tied: -0.5, at: 1 };
  takeDocument("wheel", kept);
  expect(wheelKept.value).toBeNull();
  wheelKept.set(kept);
  const { wheel } = documentsNow(["wheel"]);
  wheelKept.set(null);
  takeDocument("wheel", JSON.parse(JSON.stringify(wheel)));
  expect(wheelKept.value).toEqual(kept);
});
