import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, answered, fakeWorker } from "../../../base/desk/fake-worker";
import type { Hour, Hours, Moments } from "../../../base/desk/types/day.gen";

let asked: Asked[];

const hour = (set: number) =>
  ({ stream: { set, value: -0.4, directed: true, doubt: 0.2 }, tide: { value: 1.1 }, sky: "day" }) as Hour;

beforeEach(() => {
  vi.resetModules();
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  asked = [];
  vi.stubGlobal("Worker", fakeWorker({ moments: () => ({ hours: [hour(1)] }) as Hours }, asked));
});
afterEach(() => vi.unstubAllGlobals());

it("asks by the stations chosen for the ground, and anew when another is chosen", async () => {
  const { keepPredicted, predictedNow } = await import("./predicted");
  const { ground, keepGround } = await import("../../tide/water");
  const { lastFix } = await import("../../../base/position/position");
  const { now } = await import("../../../base/position/moment");
  ground.signal.value = null;
  lastFix.value = { at: now(), fix: { lat: 41.2, lon: -71.5, accuracy: 5 } };
  keepPredicted();
  await answered();
  const last = () => (asked[asked.length - 1]?.request as Moments | undefined)?.moments[0];
  expect(last()).toMatchObject({ tide: "", stream: "" });
  expect(predictedNow()).toMatchObject({ set: 1, drift: 0.4, doubt: 0.2 });
  const before = asked.length;
  keepGround({ stream: "n03020" });
  await answered();
  expect(asked).toHaveLength(before + 1);
  expect(last()).toMatchObject({ tide: "", stream: "n03020" });
  keepGround({ tide: "8531680" });
  await answered();
  expect(last()).toMatchObject({ tide: "8531680", stream: "n03020" });
});
