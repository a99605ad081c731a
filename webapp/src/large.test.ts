/**
 * What a mark costs in a trip of very many entries, and beside very many trips: not in time, which hangs on the machine, but
 * by what is gone through on the disk and folded for it. It must be the same as in a trip of few, and beside few.
 */
import "fake-indexeddb/auto";
import { afterEach, expect, it, vi } from "vitest";
import { fakeWorker } from "./base/desk/fake-worker";
import type { Stored } from "./state/entry/entry";
import { uuid } from "./state/entry/uuid";
import type { Outcome } from "./state/log/disk/exchanging";
import { theLog } from "./state/log/saying/started";

const folded = vi.hoisted(() => ({ entries: 0 }));
vi.mock("./state/entry/fold", async (load) => {
  const real = await load<typeof import("./state/entry/fold")>();
  const foldAll = (entries: Stored[]) => {
    folded.entries += entries.length;
    return real.foldAll(entries);
  };
  return { ...real, foldAll };
});

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

/** How often something was written in the one way in which values are compared: JSON with its fields in order. */
const canonical = (): number =>
  vi.mocked(JSON.stringify).mock.calls.filter(([, replacer]) => typeof replacer === "function").length;

/** All that calibration asks of a touch. */
const felt = {
  ...{ rod: "1 port", bottom: 15, lineOut: 60, speed: 1.6 },
  asked: { name: "1 port", rod: { rig: {} }, wire: "w", lure: "l", speedDoubt: 0.1 },
};

/** Every way to read, and how much each has gone through: of a number of entries that is asked for, so many. */
function watched(): { requests: () => number; gone: () => number } {
  const stores = [IDBObjectStore.prototype, IDBIndex.prototype];
  const counts = stores.map((from) => vi.spyOn(from, "count"));
  const reads = stores.flatMap((from) => [
    vi.spyOn(from, "get"),
    vi.spyOn(from, "getAll"),
    vi.spyOn(from, "getAllKeys"),
    vi.spyOn(from, "openCursor"),
  ]);
  const of = (ways: typeof reads | typeof counts): unknown[] =>
    ways.flatMap(({ mock }) => mock.results.map(({ value }) => value.result));
  return {
    // Those that were made, and those that were answered.
    requests: () =>
      [...reads, ...counts].reduce(
        (sum, { mock }) =>
          sum + mock.calls.length + mock.results.filter(({ value }) => value.readyState === "done").length,
        0,
      ),
    gone: () =>
      [
        ...of(reads).map((result) => (Array.isArray(result) ? result.length : 1)),
        ...of(counts).map(Number),
      ].reduce((sum, one) => sum + one, 0),
  };
}

/** Until nothing more is asked of the disk. */
async function quiet(requests: () => number): Promise<void> {
  for (let turns = 0, before = -1; turns < 20; turns = requests() === before ? turns + 1 : 0) {
    before = requests();
    await new Promise((done) => setImmediate(done));
  }
}

/**
 * A phone of the crew that shows a trip of so many notes, touches and marks, half of them not yet sent; and has so many
 * trips of earlier days.
 */
async function phone(entries: number, earlier: number) {
  vi.resetModules();
  vi.stubGlobal("BroadcastChannel", undefined);
  vi.stubGlobal("Worker", fakeWorker({}, []));
  globalThis.indexedDB = new IDBFactory();
  const log = await theLog();
  const trip = log.startTrip({ name: "A long day" });
  await vi.waitFor(() => expect(log.isSaved()).toBe(true));
  const of = (i: number, trip: string, at: number) => ({
    ...{ id: uuid(), record: uuid(), kind: ["note", "touch", "mark"][i % 3] as string, trip, prev: [] },
    ...{ set: { text: `${i}`, ...(i % 3 === 1 && felt) }, at },
  });
  const all = Array.from({ length: entries }, (_, i) => of(i, trip, Date.now() - i * 60_000));
  for (let day = 1; day <= earlier; day++) {
    const [id, at] = [uuid(), Date.now() - day * 86_400_000];
    const trip = {
      id: uuid(),
      record: id,
      kind: "trip",
      trip: id,
      prev: [],
      set: { opened: at, closed: at },
      at,
    };
    await log.book.append([trip, ...[0, 1, 2].map((i) => of(i, id, at))]);
  }
  await log.book.append(all.slice(entries / 2));
  let no = 0;
  const taken = (sent: { id: string }[], others: object[]): Outcome => ({
    cursor: { epoch: "e.0", since: no + sent.length + others.length, check: "c", more: false },
    taken: sent.map(({ id }) => ({ id, no: ++no })),
    refused: [],
    entries: others.map((one, i) => ({
      ...one,
      n: i + 1,
      no: ++no,
      by: "x",
      byName: "X",
    })) as Outcome["entries"],
    spoilt: [],
    you: { device: "d", name: "S", role: "skipper", may: ["trips", "crew"] },
  });
  await log.book.take(await log.book.batch(0, 0), taken([], all.slice(0, entries / 2)));
  await log.loadLog();
  await log.show(trip);
  const calibrate = await import("./state/calibrate/touches");
  calibrate.keepCalibrating();
  (await import("./state/overboard/overboard")).keepOverboard();
  const lately = await import("./state/fish/lately");
  lately.keepLately();
  await vi.waitFor(() => expect(calibrate.touches.value).toBeDefined());
  // Of the earlier trips that of the day before.
  await vi.waitFor(() => expect(lately.noted.value).toHaveLength(entries / 3 + Math.min(earlier, 1)));
  const watch = watched();
  vi.spyOn(JSON, "stringify");
  await quiet(watch.requests);
  vi.clearAllMocks();
  folded.entries = 0;
  /** What was gone through, folded and compared since. */
  const cost = async () => {
    await quiet(watch.requests);
    const sum = { gone: watch.gone(), folded: folded.entries, canonical: canonical() };
    vi.clearAllMocks();
    folded.entries = 0;
    return sum;
  };
  return { log, taken, cost };
}

/** What it costs to mark, and then to hear from the server that it has it, together with a note of another's. */
async function costs(entries: number, earlier = 0) {
  const { log, taken, cost } = await phone(entries, earlier);
  log.note("mark", { rod: "port" });
  await vi.waitFor(() => expect(log.isSaved()).toBe(true));
  const marked = await cost();
  expect(log.ofKind("mark").at(-1)?.fields.get("rod")?.value).toBe("port");
  const trip = log.running.value?.trip as string;
  const batch = await log.book.batch(1, 10_000);
  vi.clearAllMocks();
  const other = { id: uuid(), record: uuid(), kind: "note", trip, prev: [], set: { text: "other" }, at: 1 };
  await log.book.take(batch, taken(batch.entries, [other]));
  await log.changed();
  const sent = await cost();
  expect(log.records.value).toHaveLength(entries + 3);
  // Each earlier trip is four entries.
  expect(log.standing.value.unsent).toBe(entries / 2 + 1 + 4 * earlier);
  expect(log.summaries.value).toHaveLength(earlier + 1);
  return { marked, sent };
}

it("goes through as much for a mark in a trip of many entries as in one of few, saved and sent", async () => {
  const few = await costs(150);
  expect(few.marked.gone).toBeGreaterThan(0);
  expect(few.marked.folded).toBeGreaterThan(0);
  expect(await costs(600)).toEqual(few);
});

it("goes through as much for a mark beside 29 other trips as beside 2, saved and sent", async () => {
  expect(await costs(12, 29)).toEqual(await costs(12, 2));
});

/** What it costs to note a touch, beside more than calibration takes. */
async function touched(entries: number) {
  const { log, cost } = await phone(entries, 0);
  const { touches } = await import("./state/calibrate/touches");
  const before = touches.value?.length ?? 0;
  expect(before).toBeGreaterThanOrEqual(100);
  const { id } = log.note("touch", felt);
  await vi.waitFor(() => expect(touches.value?.[0]?.id).toBe(id));
  return cost();
}

it("goes through as much for a touch beside 400 others as beside 150", async () => {
  expect(await touched(1200)).toEqual(await touched(450));
});
