// @vitest-environment node
import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, answered, fakeWorker } from "../../base/desk/fake-worker";
import type { SpreadAnswer, Spread as SpreadAsked } from "../../base/desk/types/towline.gen";
import { sampleGear, sampleSpread } from "./sample";

let asked: Asked[];
let silent: boolean;

const answer = ({ rods }: SpreadAsked) =>
  ({ aim: 2, rods: rods.map(({ lineOut }) => ({ depth: { mid: lineOut } })) }) as unknown as SpreadAnswer;

beforeEach(() => {
  vi.useFakeTimers({ now: Date.UTC(2031, 5, 1), toFake: ["Date", "setTimeout", "clearTimeout"] });
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  asked = [];
  silent = false;
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** The app begun anew, with what is kept on the phone. */
async function start() {
  vi.resetModules();
  const worker = fakeWorker({ spread: answer, thumb: () => ({ rods: [] }) as never }, asked);
  vi.stubGlobal(
    "Worker",
    class extends worker {
      override postMessage(...said: Parameters<InstanceType<typeof worker>["postMessage"]>) {
        if (!silent) super.postMessage(...said);
      }
    },
  );
  const { gear } = await import("../gear/gear");
  const { spread } = await import("./spread");
  const { last } = await import("./last");
  gear.signal.value = {
    ...sampleGear,
    drails: [{ id: "d", name: "", source: "test", number: 4, mass: 0.1 }],
  };
  spread.signal.value = sampleSpread;
  await last.load();
  const at = await import("./solved");
  return { ...at, spread, last };
}

/** One start, answered and kept. */
async function once(): Promise<void> {
  const { keepSolving, solved, last } = await start();
  keepSolving();
  await answered();
  expect(solved.value?.asOf).toBeUndefined();
  expect(solved.value?.rods).toHaveLength(sampleSpread.rods.length);
  vi.advanceTimersByTime(3000);
  await last.settled();
}

it("shows at the next start what was answered last, as of then, until there is a new answer", async () => {
  await once();
  vi.setSystemTime(Date.UTC(2031, 5, 2));
  silent = true;
  const { keepSolving, solved } = await start();
  keepSolving();
  await answered();
  expect(solved.value?.asOf).toBe(Date.UTC(2031, 5, 1) + 3000);
  expect(solved.value?.rods.map(({ depth }) => depth.mid)).toEqual(
    sampleSpread.rods.map((rod) => rod.lineOut),
  );
});

it("asks with the speeds that were wanted then: what tells them comes later", async () => {
  const first = await start();
  (await import("./spread")).wantedSpeeds.value = { low: 1.5, high: 1.8 };
  first.keepSolving();
  await answered();
  vi.advanceTimersByTime(3000);
  await first.last.settled();
  asked = [];
  (await start()).keepSolving();
  await answered();
  expect(asked.find(({ name }) => name === "spread")?.request).toMatchObject({
    wanted: { speedLow: 1.5, speedHigh: 1.8 },
  });
});

it("has it replaced by the new answer, which is as of now", async () => {
  await once();
  asked = [];
  const { keepSolving, solved } = await start();
  keepSolving();
  expect(solved.value?.asOf).toBeDefined();
  await answered();
  expect(asked.filter(({ name }) => name === "spread")).toHaveLength(1);
  expect(solved.value?.asOf).toBeUndefined();
});

it("shows nothing of it for a spread that is another", async () => {
  await once();
  silent = true;
  const { keepSolving, solved, spread } = await start();
  spread.signal.value = { ...sampleSpread, bottom: sampleSpread.bottom + 1 };
  keepSolving();
  await answered();
  expect(solved.value).toBeUndefined();
});
