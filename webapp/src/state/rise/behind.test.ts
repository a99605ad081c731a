import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { answered, fakeWorker } from "../../base/desk/fake-worker";
import type { Coming } from "../../base/desk/types/rise.gen";
import { sampleGear, sampleSpread } from "../spread/sample";
import { sampleComing as ahead } from "./sample";

let coming: Coming;

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["Date", "performance", "setInterval", "clearInterval"], now: 1_000_000 });
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  coming = ahead;
  vi.stubGlobal("Worker", fakeWorker({ rise: () => ({ rods: [coming] }) }, []));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** A phone on which a depth was sounded, with Bottom at 15 m; and the time when its lure has come there. */
async function sounded(depth: number) {
  const { keepLooking, looked } = await import("./watch");
  const { sound } = await import("./soundings");
  const { spread } = await import("../spread/spread");
  const { gear } = await import("../gear/gear");
  const { change } = await import("../spread/solved");
  const all = await import("./behind");
  gear.signal.value = sampleGear;
  spread.signal.value = sampleSpread;
  keepLooking();
  all.keepBehind();
  vi.advanceTimersByTime(10);
  sound(depth);
  await answered();
  const lookAgain = async () => {
    const before = looked.value;
    vi.advanceTimersByTime(3000);
    await answered();
    expect(looked.value).not.toBe(before);
  };
  const passed = async () => {
    coming = { ...ahead, verdict: "not sounded" };
    await lookAgain();
  };
  return { ...all, sound, spread, change, passed };
}

it("is what was sounded last, once every lure has come there, while Bottom is another; until it is set", async () => {
  const { behind, change, passed } = await sounded(11);
  expect(behind.value).toBeUndefined();
  await passed();
  expect(behind.value).toBe(11);
  change({ bottom: 11 });
  expect(behind.value).toBeUndefined();
});

it("is the ground that no rod goes deeper over, until Bottom is set", async () => {
  const { passed, change, leaveBottom, sound } = await sounded(11);
  (await import("./orders")).keepOrders();
  const { takeIn } = await import("../spread/request");
  const [{ id } = { id: "" }] = sampleSpread.rods;
  await passed();
  expect(takeIn.value).toEqual({ [id]: 0 });
  change({ bottom: 11 });
  expect(takeIn.value).toEqual({});
  change({ bottom: 15 });
  sound(10);
  await passed();
  expect(takeIn.value).toEqual({ [id]: 0 });
  leaveBottom();
  expect(takeIn.value).toEqual({});
});

it("is nothing where both are about the same", async () => {
  const { behind, passed } = await sounded(14.2);
  await passed();
  expect(behind.value).toBeUndefined();
});

it("is left by a tap, or where Bottom was set to something else since; and told anew of the next depth", async () => {
  const { behind, leaveBottom, soundedSince, change, sound, passed } = await sounded(11);
  await passed();
  leaveBottom();
  expect(behind.value).toBeUndefined();
  sound(10);
  await passed();
  expect(behind.value).toBe(10);
  expect(soundedSince()).toBe(10);
  change({ bottom: 13 });
  expect(behind.value).toBeUndefined();
  expect(soundedSince()).toBeUndefined();
});

it("is told for as long as a reading holds, and no longer", async () => {
  const { behind, soundedSince, passed } = await sounded(11);
  vi.advanceTimersByTime(880_000);
  await passed();
  expect(behind.value).toBe(11);
  vi.advanceTimersByTime(30_000);
  await answered();
  expect(behind.value).toBeUndefined();
  expect(soundedSince()).toBeUndefined();
});

it("is not offered over a Bottom that was set since, nor by a page that begins anew; what is sounded later is", async () => {
  const { behind, bottomSet, change, sound, passed } = await sounded(11);
  vi.advanceTimersByTime(1000);
  change({ bottom: 11 });
  change({ bottom: 15 });
  await passed();
  expect(behind.value).toBeUndefined();
  await bottomSet.settled();
  const [{ soundings }, { spread }] = [await import("./soundings"), await import("../spread/spread")];
  const before = { soundings: soundings.value, spread: spread.value };
  vi.resetModules();
  const anew = await import("./behind");
  await anew.bottomSet.loaded();
  expect(anew.soundedSince()).toBeUndefined();
  (await import("./soundings")).soundings.signal.value = before.soundings;
  (await import("../spread/spread")).spread.signal.value = before.spread;
  expect(anew.soundedSince()).toBeUndefined();
  sound(10);
  (await import("./soundings")).soundings.signal.value = soundings.value;
  expect(anew.soundedSince()).toBe(10);
  // By a clock that was set back since nothing was set later.
  anew.bottomSet.signal.value = Date.now() + 60_000;
  expect(anew.soundedSince()).toBe(10);
});
