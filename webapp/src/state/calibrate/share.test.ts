import { IDBFactory } from "fake-indexeddb";
import { theLog } from "../log/saying/started";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, fakeWorker } from "../../base/desk/fake-worker";
import type { Answer, Judged, Query, RodLearned } from "../../base/desk/types/calibrate.gen";
import { faultOf } from "../entry/entry";
import { sampleGear, sampleSpread } from "../spread/sample";
import type { Taught } from "./taught";

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

beforeEach(() => {
  vi.resetModules();
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  asked = [];
  const calibrate = ({ observations, rods }: Query) =>
    ({
      used: observations.length,
      observations: observations.map(() => ({ verdict: "agrees" }) as Judged),
      rods: rods.map(() => ({ learned }) as RodLearned),
    }) as Answer;
  vi.stubGlobal("Worker", fakeWorker({ calibrate: calibrate as never }, asked));
});
afterEach(() => vi.unstubAllGlobals());

const rod = sampleSpread.rods[0] as (typeof sampleSpread.rods)[number];
const known: Omit<Taught, "id" | "rigged"> = {
  kind: "known",
  at: 1_000_000,
  place: rod.place,
  rig: rod.rig,
  lineOut: 90,
  drail: 0.1134,
  sinker: 0,
  speed: 1.7,
  speedDoubt: 0.1,
  reading: 10,
  doubt: 0.5,
};

/** A start of the app on this phone, which may teach the boat's lines or not. */
async function start(mayTeach = true) {
  vi.resetModules();
  const calibrate = await import("./touches");
  const own = await import("./taught");
  const { keepSharing, unteach } = await import("./share");
  const log = await theLog();
  const { lessons } = await import("../spread/learned");
  const { spread } = await import("../spread/spread");
  const { gear } = await import("../gear/gear");
  gear.signal.value = sampleGear;
  spread.signal.value = sampleSpread;
  await own.taught.load();
  await log.loadLog();
  calibrate.keepCalibrating();
  keepSharing(() => mayTeach);
  await vi.waitFor(() => expect(calibrate.taughtInLog.value).toBeDefined());
  const used = (count: number) => vi.waitFor(() => expect(lessons.value.used).toBe(count));
  const inLog = (count: number) => vi.waitFor(() => expect(calibrate.taughtInLog.value).toHaveLength(count));
  return { ...calibrate, ...own, log, used, inLog, unteach, gear };
}

const request = () => (asked.at(-1) as Asked).request as Query;

it("stays on the phone until a trip runs, goes into it then, once, and teaches the same there", async () => {
  const at = await start();
  at.teach(known);
  await at.used(1);
  const before = request().observations[0];
  expect(at.taughtHere.value).toHaveLength(1);
  at.log.startTrip({});
  await at.inLog(1);
  await vi.waitFor(() => expect(at.taught.value).toEqual([]));
  await at.taught.settled();
  const entries = await at.log.book.entriesOfKinds(["taught"]);
  expect(entries).toHaveLength(1);
  expect(entries[0] && faultOf(entries[0])).toBeUndefined();
  // Other gear on the phone, as on the boat's other ones: it is computed all the same.
  at.gear.set({ ...sampleGear, rigs: sampleGear.rigs.map((rig) => ({ ...rig, id: "other" })) });
  await vi.waitFor(() => expect(request().observations[0]).toEqual({ ...before, age: expect.any(Number) }));
  const again = await start();
  await again.inLog(1);
  again.teach({ ...known, reading: 12 });
  await again.inLog(2);
  expect(await again.log.book.entriesOfKinds(["taught"])).toHaveLength(2);
});

it("is let go of on the phone only when the log has it on disk", async () => {
  const at = await start();
  const append = vi.spyOn(at.log.book, "append").mockRejectedValue(new Error("closed"));
  at.log.startTrip({});
  at.teach(known);
  await vi.waitFor(() => expect(append).toHaveBeenCalled());
  expect(at.taughtHere.value).toHaveLength(1);
  // The phone dies here: what was taught is still known, and goes into the next trip.
  append.mockRestore();
  await at.taught.settled();
  const again = await start();
  expect(again.taughtHere.value).toHaveLength(1);
  again.log.startTrip({});
  await again.inLog(1);
});

it("of a guest's phone stays there, and counts there", async () => {
  const at = await start(false);
  at.log.startTrip({});
  at.teach(known);
  await at.used(1);
  expect(await at.log.book.entriesOfKinds(["taught"])).toEqual([]);
  expect(at.taughtHere.value).toHaveLength(1);
});

it("is struck out, and taught again, wherever it is by now", async () => {
  const at = await start();
  const first = at.teach(known);
  await at.used(1);
  const back = at.unteach(first.id);
  await at.used(0);
  back();
  await at.used(1);
  at.log.startTrip({});
  await at.inLog(1);
  const backInLog = at.unteach(first.id);
  await at.inLog(0);
  await at.used(0);
  expect((await at.log.book.entriesOfKinds(["taught"])).length).toBe(2);
  backInLog();
  await at.inLog(1);
  await at.used(1);
});

it("noted by two phones counts once", async () => {
  const at = await start();
  at.teach(known);
  at.log.startTrip({});
  await at.inLog(1);
  const [entry] = await at.log.book.entriesOfKinds(["taught"]);
  at.log.note("taught", entry?.set ?? {});
  await vi.waitFor(async () => expect(await at.log.book.entriesOfKinds(["taught"])).toHaveLength(2));
  await at.inLog(1);
  await at.used(1);
});

it("as amended is what counts", async () => {
  const at = await start();
  at.teach(known);
  at.log.startTrip({});
  await at.inLog(1);
  const record = at.taughtInLog.value?.[0]?.record;
  if (record) at.log.amend(record, { bottom: 13, lineOut: 80, drail: 0 });
  await vi.waitFor(() => {
    const [one] = request().observations;
    expect([one?.sea.bottom, one?.rod.lineOut, one?.rod.rig.drails]).toEqual([13, 80, []]);
  });
});

it("is of the rig as it was then: another spoon on that reel changes nothing of it", async () => {
  const at = await start();
  at.teach(known);
  await at.used(1);
  const before = request().observations[0];
  const rigs = sampleGear.rigs.map((rig) => ({ ...rig, leaderLength: rig.leaderLength + 3 }));
  at.gear.set({ ...sampleGear, rigs });
  await vi.waitFor(() => expect(request().rods[0]?.rod.rig.leaderLength).toBe(rigs[0]?.leaderLength));
  expect(request().observations[0]).toEqual({ ...before, age: expect.any(Number) });
  // What an earlier app taught, which did not keep that, is of the rig as it is now.
  at.taught.set(at.taught.value.map((one) => ({ ...one, rigged: null })));
  await vi.waitFor(() => expect(request().observations[0]?.rod.rig.leaderLength).toBe(rigs[0]?.leaderLength));
});

it("as an earlier app kept it is read", async () => {
  const at = await start();
  at.teach(known);
  await at.taught.settled();
  const { rigged, ...earlier } = at.taught.value[0] as Taught;
  expect(rigged?.rod.lineOut).toBe(90);
  at.taught.set([earlier as Taught]);
  await at.taught.settled();
  const again = await start();
  expect(again.taughtHere.value).toEqual([{ ...earlier, rigged: null }]);
});
