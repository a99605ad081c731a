import { IDBFactory } from "fake-indexeddb";
import { theLog } from "../log/saying/started";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, fakeWorker } from "../../base/desk/fake-worker";
import {
  type Answer,
  type Judged,
  limits,
  type Query,
  type RodLearned,
} from "../../base/desk/types/calibrate.gen";
import type { Problem } from "../../base/desk/types/codec.gen";
import type { Folded } from "../entry/fold";
import { bareRod, kindsOn } from "../spread/request";
import { sampleGear, sampleSpread } from "../spread/sample";

const learned = {
  lineDrag: 0.1,
  friction: 0,
  lureWeight: 0,
  lureDrag: 0,
  lureLift: 0,
  sinkers: 0,
  root: Array<number>(21).fill(0),
};

let asked: Asked[];
/** What the calculator says to so many observations. */
let answer: (query: Query) => Answer | Problem[];

const agreeing = ({ observations, rods }: Query) =>
  ({
    used: observations.length,
    observations: observations.map(() => ({ verdict: "agrees" }) as Judged),
    rods: rods.map(() => ({ learned }) as RodLearned),
  }) as Answer;

beforeEach(() => {
  vi.resetModules();
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  asked = [];
  answer = agreeing;
  vi.stubGlobal("Worker", fakeWorker({ calibrate: (query) => answer(query) }, asked));
});
afterEach(() => vi.unstubAllGlobals());

async function start() {
  const calibrate = await import("./touches");
  const log = await theLog();
  const { strikeOut } = await import("../log/saying/strike-out");
  const { lessons } = await import("../spread/learned");
  const { spread } = await import("../spread/spread");
  const { gear } = await import("../gear/gear");
  const { undoable } = await import("../../base/shell/undo");
  gear.signal.value = sampleGear;
  spread.signal.value = sampleSpread;
  const asked = {
    name: "1 port",
    rod: bareRod(sampleGear, sampleSpread.rods[0] as (typeof sampleSpread.rods)[number]),
    ...kindsOn(sampleGear, sampleGear.rigs[0] as (typeof sampleGear.rigs)[number]),
    speedDoubt: 0.05,
  };
  /** Notes a touch at this depth of water. */
  const touch = (bottom: number) =>
    log.note("touch", { rod: "1 port", bottom, lineOut: 50, speed: 1.6, asked: asked as unknown as string });
  await log.loadLog();
  calibrate.keepCalibrating();
  const used = (touches: number) => vi.waitFor(() => expect(lessons.value.used).toBe(touches));
  return { ...calibrate, log, strikeOut, touch, used, lessons, spread, undoable };
}

it("learns from every touch of the log, and keeps what it learned by kinds of wire and lure, each once", async () => {
  const at = await start();
  const rod = sampleSpread.rods[0] as (typeof sampleSpread.rods)[number];
  at.spread.set({ ...sampleSpread, rods: [rod, { ...rod, id: "s" }] });
  at.touch(14);
  at.touch(15);
  await at.used(2);
  const { observations } = (asked.at(-1) as Asked).request as Query;
  expect(observations.map(({ sea }) => sea.bottom).sort()).toEqual([14, 15]);
  expect(at.lessons.value.of).toEqual([{ wire: "180 N", lure: "200 mm", learned }]);
  expect(at.judged.value.map(({ touch, verdict }) => [touch.seen?.sea.bottom, verdict.verdict])).toEqual(
    observations.map(({ sea }) => [sea.bottom, "agrees"]),
  );
});

it("forgets what a touch taught when it is struck out, and knows it again when that is taken back", async () => {
  const at = await start();
  at.touch(14);
  await at.used(1);
  at.strikeOut(at.touches.value?.[0]?.record as Folded);
  await at.used(0);
  expect(at.lessons.value.of).toEqual([]);
  expect(at.judged.value).toEqual([]);
  at.undoable.value?.undo();
  await at.used(1);
});

it("leaves out what the calculator will not have, and learns from the rest", async () => {
  const at = await start();
  answer = (query) => {
    const bad = query.observations.findIndex(({ sea }) => sea.bottom === 400);
    return bad < 0
      ? agreeing(query)
      : [{ field: `observations[${bad}].sea.bottom`, code: "range", text: "must be from 0 to 300 m" }];
  };
  at.touch(14);
  at.touch(400);
  at.touch(15);
  await at.used(2);
  expect(at.touches.value).toHaveLength(3);
  expect(at.counted.value.map(({ seen }) => seen?.sea.bottom).sort()).toEqual([14, 15]);
});

it("tells of those that contradict", async () => {
  const at = await start();
  answer = (query) => ({
    ...agreeing(query),
    observations: query.observations.map(
      ({ sea: { bottom = 0 } }) => ({ verdict: bottom > 20 ? "contradicts" : "agrees" }) as Judged,
    ),
  });
  at.touch(14);
  at.touch(30);
  await at.used(2);
  expect(at.contradictions.value.map(({ touch }) => touch.seen?.sea.bottom)).toEqual([30]);
});

it("does not ask again for a line that is let out, and does for another lure", async () => {
  const at = await start();
  at.touch(14);
  await at.used(1);
  const times = asked.length;
  const rod = sampleSpread.rods[0] as (typeof sampleSpread.rods)[number];
  at.spread.set({ ...sampleSpread, rods: [{ ...rod, lineOut: 60 }] });
  expect(asked).toHaveLength(times);
  const { gear } = await import("../gear/gear");
  const [spoon] = sampleGear.spoons;
  gear.set({ ...sampleGear, spoons: spoon ? [{ ...spoon, name: "The good one" }] : [] });
  await vi.waitFor(() => expect(at.lessons.value.of[0]?.lure).toBe("the good one"));
});

it("asks by how well the bottom and the tide are known here, and anew when that changes", async () => {
  const at = await start();
  at.touch(14);
  await at.used(1);
  const ground = () => {
    const { bottomDoubt, tideDoubt } = (asked.at(-1) as Asked).request as Query;
    return { bottomDoubt, tideDoubt };
  };
  at.spread.set({ ...sampleSpread, bottomDoubt: 0.7, tideDoubt: 1.2 });
  await vi.waitFor(() => expect(ground()).toEqual({ bottomDoubt: 0.7, tideDoubt: 1.2 }));
  // Nobody doubts either: a spread may say so, and the desk still learns from touches.
  at.spread.set({ ...sampleSpread, bottomDoubt: 0, tideDoubt: 0 });
  const { bottomDoubt } = limits.Query;
  await vi.waitFor(() => expect(ground()).toEqual({ bottomDoubt: bottomDoubt.min, tideDoubt: 0 }));
});

it("keeps what it knows while the log cannot be read", async () => {
  const at = await start();
  at.touch(14);
  await at.used(1);
  vi.spyOn(at.log.book, "latest").mockRejectedValue(new Error("closed"));
  at.touch(15);
  await vi.waitFor(() => expect(at.log.written.value).toBeGreaterThan(1));
  expect(at.lessons.value.used).toBe(1);
  expect(at.touches.value).toHaveLength(1);
  vi.restoreAllMocks();
  at.touch(16);
  await at.used(3);
});

it("leaves out what one phone felt, and counts it again; never this phone's own", async () => {
  const at = await start();
  at.touch(14);
  at.touch(15);
  await at.used(2);
  const [one, other] = at.touches.value ?? [];
  if (!one || !other) throw new Error("no touches");
  const [first] = one.record.entries;
  if (!first) throw new Error("no entry");
  const { own: _own, ...said } = first;
  const bens = { ...one, record: { ...one.record, entries: [{ ...said, by: "ben", byName: "Ben" }] } };
  at.touches.value = [bens, other];
  expect(at.otherPhones.value.map(({ by, out }) => [by, out])).toEqual([["ben", false]]);
  at.leaveOutPhone("ben", true);
  expect(at.counted.value).toEqual([other]);
  expect(at.otherPhones.value.map(({ out }) => out)).toEqual([true]);
  await at.used(1);
  at.leaveOutPhone("ben", false);
  expect(at.counted.value).toEqual([bens, other]);
  await at.used(2);
});
