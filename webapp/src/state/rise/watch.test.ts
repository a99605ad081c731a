import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, answered, fakeWorker } from "../../base/desk/fake-worker";
import type { Problem } from "../../base/desk/types/codec.gen";
import type { Answer, Coming, Query } from "../../base/desk/types/rise.gen";
import { sampleGear, sampleSpread } from "../spread/sample";
import { sampleComing as coming } from "./sample";

let asked: Asked[];
let answer: Answer | Problem[];

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["Date", "performance", "setInterval", "clearInterval"], now: 1_000_000 });
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  asked = [];
  answer = { rods: [coming] };
  vi.stubGlobal("Worker", fakeWorker({ rise: () => answer }, asked));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function start() {
  const watch = await import("./watch");
  const { sound, soundings } = await import("./soundings");
  const { spread } = await import("../spread/spread");
  const { gear } = await import("../gear/gear");
  gear.signal.value = sampleGear;
  spread.signal.value = sampleSpread;
  watch.keepLooking();
  (await import("./orders")).keepOrders();
  const warned = async () => {
    await answered();
    expect(watch.warning.value).toBeDefined();
  };
  const askedTimes = async (times: number) => {
    await answered();
    expect(asked).toHaveLength(times);
  };
  return { ...watch, sound, soundings, spread, warned, askedTimes };
}

it("asks nothing until something was read, then with how old each reading is, at the speed of Lines without Pace", async () => {
  const watch = await start();
  expect(asked).toEqual([]);
  watch.sound(14);
  await watch.askedTimes(1);
  vi.advanceTimersByTime(2000);
  watch.sound(12);
  await watch.askedTimes(2);
  expect(asked.at(-1)?.request).toMatchObject({
    overGround: 1.6,
    sea: { bottom: 15, speed: 1.6 },
    wanted: sampleSpread.wanted,
    caution: sampleSpread.caution,
    soundings: [
      { age: 0, depth: 12 },
      { age: 2, depth: 14 },
    ],
  });
});

it("looks anew every three seconds while readings last, and no more once all lures have passed", async () => {
  const watch = await start();
  watch.sound(12);
  await watch.warned();
  vi.advanceTimersByTime(3000);
  await watch.askedTimes(2);
  expect(asked.at(-1)?.request).toMatchObject({ soundings: [{ age: 3, depth: 12 }] });
  vi.advanceTimersByTime(895_000);
  await watch.warned();
  vi.advanceTimersByTime(3000);
  await answered();
  expect(watch.warning.value).toBeUndefined();
  const times = asked.length;
  vi.advanceTimersByTime(30_000);
  expect(asked).toHaveLength(times);
});

it("has each rod told one number, that of the alarm, also once it was noted, until the rise has passed", async () => {
  const watch = await start();
  const { takeIn } = await import("../spread/request");
  expect(takeIn.value).toEqual({});
  watch.sound(12);
  await watch.warned();
  expect(takeIn.value).toEqual({ [sampleSpread.rods[0]?.id as string]: 20 * 0.3048 });
  watch.noteRise();
  expect(watch.warning.value).toBeUndefined();
  expect(takeIn.value).toEqual({ [sampleSpread.rods[0]?.id as string]: 20 * 0.3048 });
  watch.looked.value = undefined;
  expect(takeIn.value).toEqual({});
});

it("has a rod that does what the rise wants go no deeper until it has passed, and where it is no rise to the row, go on", async () => {
  const watch = await start();
  const { takeIn } = await import("../spread/request");
  const told = async (now: object, bottom = 15) => {
    watch.spread.signal.value = { ...sampleSpread, bottom };
    answer = { rods: [{ ...coming, ...now } as Coming] };
    vi.advanceTimersByTime(3000);
    watch.sound(12);
    await answered();
    expect(watch.warning.value).toBeUndefined();
    return takeIn.value;
  };
  const [{ id } = { id: "" }] = sampleSpread.rods;
  const clear = { verdict: "stays clear", depth: { low: 6, mid: 7, high: 8 }, lineIn: 0, in: 0 };
  expect(await told(clear)).toEqual({ [id]: 0 });
  expect(await told({ ...clear, shoalest: 14.5 })).toEqual({});
  expect(await told(clear, 10.5)).toEqual({});
  expect(await told({ verdict: "not sounded", shoalest: 0 }, 12.5)).toEqual({});
  const trouble = { field: "", code: "physics", text: "" };
  expect(await told({ ...clear, trouble })).toEqual({});
});

it("once noted is told again only when it grows shallower by more than a hand", async () => {
  const watch = await start();
  watch.sound(12);
  await watch.warned();
  watch.noteRise();
  expect(watch.warning.value).toBeUndefined();
  answer = { rods: [{ ...coming, shoalest: 10.3 }] };
  vi.advanceTimersByTime(3000);
  await answered();
  expect(watch.looked.value?.answer.rods[0]?.shoalest).toBe(10.3);
  expect(watch.warning.value).toBeUndefined();
  answer = { rods: [{ ...coming, shoalest: 10.1 }] };
  vi.advanceTimersByTime(3000);
  await watch.warned();
});

it("is told anew of the next rise, when the one that was noted has passed", async () => {
  const watch = await start();
  watch.sound(12);
  await watch.warned();
  watch.noteRise();
  answer = { rods: [{ ...coming, verdict: "stays clear" }] };
  vi.advanceTimersByTime(3000);
  await answered();
  expect(watch.looked.value?.answer.rods[0]?.verdict).toBe("stays clear");
  answer = { rods: [coming] };
  vi.advanceTimersByTime(3000);
  await watch.warned();
});

it("tells nothing of an answer that comes when all lines are in, the soundings are forgotten, or its rod is", async () => {
  const watch = await start();
  const spoken = async (ends: () => void) => {
    watch.spread.signal.value = sampleSpread;
    watch.sound(12);
    await watch.warned();
    watch.sound(11.9);
    const times = asked.length;
    ends();
    // It was asked and is on its way.
    expect(asked).toHaveLength(times);
    const told: unknown[] = [];
    const stop = watch.warning.subscribe((now) => told.push(now));
    await answered();
    stop();
    return told;
  };
  const told = await spoken(() => watch.spread.set({ ...watch.spread.value, allIn: true }));
  expect(told.filter(Boolean)).toEqual([]);
  const forgotten = await spoken(() => watch.soundings.set([]));
  expect(forgotten.filter(Boolean)).toEqual([]);

  const one = sampleSpread.rods.slice(0, 1);
  const two = [...one, ...one.map((rod) => ({ ...rod, id: "another" }))];
  watch.soundings.set([]);
  await answered();
  watch.spread.signal.value = { ...sampleSpread, rods: two };
  watch.sound(12);
  watch.spread.set({ ...sampleSpread, rods: one });
  const seen: unknown[] = [];
  const stop = watch.looked.subscribe((now) => seen.push(now?.spread.rods.length));
  await answered();
  stop();
  expect(seen).toEqual([undefined, 1]);
});

it("has soundings of a boat that tells no speed fall behind as fast as Lines goes, as those that are typed", async () => {
  const watch = await start();
  const { notePast } = await import("../instruments/pings");
  notePast({ ages: [60, 40, 20, 10], depths: [13, 14, 15, 15], runs: [80, -1, -1, -1] });
  watch.sound(12);
  await watch.askedTimes(1);
  const backs = () => (asked.at(-1)?.request as Query | undefined)?.soundings.map(({ back }) => back);
  // By hand, at 1.6 m/s: what the server counted says nothing of how far she went after.
  expect(backs()).toEqual([16, 32, 64, 96].map((one) => expect.closeTo(one)));
  vi.advanceTimersByTime(9000);
  await answered();
  expect(backs()).toEqual([30.4, 46.4, 78.4, 110.4].map((one) => expect.closeTo(one)));
  // It is heard again: as it counts between the two that it counted, and at the speed of Lines since.
  notePast({ ages: [4, 2], depths: [15, 15], runs: [81, 85] });
  vi.advanceTimersByTime(3000);
  await answered();
  expect(backs()?.slice(0, 3)).toEqual([8, 12, 36].map((one) => expect.closeTo(one)));
});

it("forgets what the instruments told until then as well, also where they tell it anew, and has it back", async () => {
  const watch = await start();
  const { notePast, pings } = await import("../instruments/pings");
  const { forgotten, readNow } = await import("./soundings");
  notePast({ ages: [60, 30], depths: [12, 15], runs: [-1, -1] });
  watch.sound(12);
  await watch.warned();
  forgotten.set(Date.now());
  await answered();
  expect(watch.warning.value).toBeUndefined();
  vi.advanceTimersByTime(2000);
  pings.value = [];
  notePast({ ages: [62, 32, 1], depths: [12, 15, 15], runs: [-1, -1, -1] });
  expect(readNow(Date.now()).map(({ depth }) => depth)).toEqual([15]);
  pings.value = pings.value.slice(1);
  watch.sound(14);
  expect(readNow(Date.now()).map(({ depth }) => depth)).toEqual([14]);
  watch.soundings.set([]);
  forgotten.set(0);
  expect(readNow(Date.now())).toHaveLength(2);
  // Forgotten at a time that is to come, by a clock that was set back since.
  forgotten.set(Date.now() + 60_000);
  expect(readNow(Date.now())).toHaveLength(2);
});

it("tells nothing that the calculator refuses to answer", async () => {
  const watch = await start();
  watch.sound(12);
  await watch.warned();
  answer = [{ field: "sea.speed", code: "range", text: "must be from 0.1 to 10 m/s" }];
  watch.spread.set({ ...watch.spread.value, speed: 1.7 });
  await answered();
  expect(watch.warning.value).toBeUndefined();
});

it("tells the calculator where the boat has gone, and the current as it is known", async () => {
  const watch = await start();
  const { noteHeading } = await import("../instruments/turning");
  const { knownCurrent } = await import("../pace/current/found");
  for (let i = 0; i <= 20; i++) {
    const heading = { value: 1 + i / 50, age: 0, holds: 3, from: "HC tcp" };
    noteHeading({ values: { heading }, run: 0, at: performance.now() });
    if (i < 20) vi.advanceTimersByTime(1000);
  }
  watch.sound(12);
  await watch.askedTimes(1);
  const request = asked.at(-1)?.request as Query;
  expect(request.courses).toHaveLength(21);
  expect(request.courses?.[0]).toMatchObject({ age: 0, toward: expect.closeTo(1.4) });
  expect(request.courses?.[20]).toMatchObject({ age: expect.closeTo(20), toward: expect.closeTo(1) });
  expect(request.drift).toBeUndefined();
  const found = { set: 2, drift: 0.4, doubtEast: 0.1, doubtNorth: 0.1, tied: 0, quality: "good" as const };
  knownCurrent.set({ ...found, at: Date.now() });
  watch.sound(11);
  await watch.askedTimes(2);
  expect(asked.at(-1)?.request).toMatchObject({ set: 2, drift: 0.4 });
  // The tide has turned since, and nothing is predicted here.
  vi.advanceTimersByTime(3_700_000);
  const heading = { value: 1, age: 0, holds: 3, from: "HC tcp" };
  noteHeading({ values: { heading }, run: 0, at: performance.now() });
  watch.sound(11);
  await answered();
  expect(asked.at(-1)?.request).toHaveProperty("courses");
  expect(asked.at(-1)?.request).not.toHaveProperty("drift");
});
