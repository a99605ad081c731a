import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { Numbered } from "../entry/entry";
import { type Folded, words } from "../entry/fold";
import { uuid } from "../entry/uuid";
import type { You } from "./disk/db";

type Log = typeof import("./log");

/** The modules hold the open database; each start of the app is a new set of them. */
async function start() {
  vi.resetModules();
  const log = await import("./log");
  const asks = await import("./asks");
  const { storageTroubles } = await import("../../base/store/kept");
  await log.loadLog();
  return { ...log, ...asks, storageTroubles };
}

const saved = (log: Awaited<ReturnType<typeof start>>) =>
  vi.waitFor(() => {
    expect(log.isSaved()).toBe(true);
  });

/** As the browser's: its keys are its own properties. */
function storage() {
  const kept: { [key: string]: string } = {};
  const as = {
    getItem: (key: string) => kept[key] ?? null,
    setItem: (key: string, value: string) => {
      kept[key] = value;
    },
    removeItem: (key: string) => {
      delete kept[key];
    },
    keys: () => Object.keys(kept),
  };
  return new Proxy(as, {
    ownKeys: () => Object.keys(kept),
    getOwnPropertyDescriptor: (_, key) =>
      key in kept ? { enumerable: true, configurable: true, value: kept[key as string] } : undefined,
  });
}

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

it("notes at once, in a trip that it begins by itself, and says when it is saved", async () => {
  const log = await start();
  expect(log.running.value).toBeUndefined();
  const first = log.note("mark", { rod: "port" });
  const trip = log.running.value?.trip as string;
  log.note("note", { text: "second" });
  expect(log.running.value?.trip).toBe(trip);
  const showing = log.show(trip);
  expect(log.records.value.map((record) => record.kind)).toEqual(["trip", "mark", "note"]);
  const mark = log.records.value.find((record) => record.id === first.id);
  expect(mark && log.isSaved(mark)).toBe(false);
  await showing;
  await saved(log);

  const later = await start();
  expect(later.running.value).toMatchObject({ trip, hookups: 1 });
  await later.show(trip);
  expect(later.records.value.map((record) => record.kind)).toEqual(["trip", "mark", "note"]);
});

it("has at the next start what was said as the page went away, before any of it was on disk", async () => {
  const kept = storage();
  vi.stubGlobal("localStorage", kept);
  const log = await start();
  // A disk that is never reached, as if the page were closed in the same moment.
  vi.spyOn(log.book, "append").mockReturnValue(new Promise(() => undefined));
  vi.spyOn(log.book, "setMeta").mockReturnValue(new Promise(() => undefined));
  const mark = log.note("mark", { rod: "port" });
  const trip = mark.trip;
  kept.setItem("wirewake-unwritten-0broken", "{");
  kept.setItem("wirewake-unwritten-0broken-2", "1");
  log.amend(mark, { rod: "starboard" });

  const later = await start();
  expect(later.running.value).toMatchObject({ trip, hookups: 1 });
  await later.show(trip);
  expect(later.records.value.map(({ kind }) => kind)).toEqual(["trip", "mark"]);
  expect(words(later.records.value[1] as Folded, "rod")).toBe("starboard");
  expect(kept.keys().filter((key) => !key.startsWith("wirewake-unwritten-0broken"))).toEqual([]);

  // Another page that is still at it changes nothing twice.
  later.note("note", { text: "once" });
  const beside = await start();
  await saved(later);
  await beside.refresh();
  await beside.show(trip);
  expect(beside.records.value.map(({ kind }) => kind)).toEqual(["trip", "mark", "note"]);
  expect(beside.records.value.flatMap(({ entries }) => entries)).toHaveLength(4);
});

it("does not read a trip again because this page has noted something in it", async () => {
  const log = await start();
  log.note("note", { text: "a" });
  await log.show(log.running.value?.trip as string);
  await saved(log);
  const reading = vi.spyOn(log.book, "entriesOf");
  const mark = log.note("mark", { rod: "port" });
  log.amend(mark, { rod: "starboard" });
  await saved(log);
  expect(log.records.value.map((record) => record.kind)).toEqual(["trip", "note", "mark"]);
  expect(log.records.value[2]?.fields.get("rod")?.value).toBe("starboard");
  expect(reading).not.toHaveBeenCalled();
  // What another one has written it does read.
  await log.refresh();
  expect(reading).toHaveBeenCalledTimes(1);
  expect(log.records.value[2]?.entries).toHaveLength(2);
});

it("follows quick amendments one on the other", async () => {
  const log = await start();
  log.note("note", { text: "a" });
  await log.show(log.running.value?.trip as string);
  const stale = log.records.value.find((record) => record.kind === "note") as Folded;
  log.amend(stale, { text: "b" });
  log.amend(stale, { text: "c" });
  log.strike(stale);
  log.unstrike(stale);
  await saved(log);
  const [, note] = log.records.value;
  expect(note && words(note, "text")).toBe("c");
  expect(note?.conflicts.size).toBe(0);
  expect(note?.struck).toBe(false);
  expect(note?.entries.map((entry) => entry.n)).toEqual([2, 3, 4, 5, 6]);
});

it("tells that the disk does not take it, keeps it on screen, and writes it once it can", async () => {
  const log = await start();
  const put = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
    throw new DOMException("full", "QuotaExceededError");
  });
  log.note("note", { text: "a" });
  await log.show(log.running.value?.trip as string);
  await vi.waitFor(() =>
    expect(log.storageTroubles.value).toContainEqual({ kind: "unsaved", name: "log", full: true }),
  );
  expect(log.records.value).toHaveLength(2);
  put.mockRestore();
  await vi.waitFor(() => expect(log.storageTroubles.value).toEqual([]));
  await saved(log);
  expect(await log.book.entriesOf(log.running.value?.trip as string)).toHaveLength(2);
});

it("shows in one tab what another has written", async () => {
  const log = await start();
  log.note("note", { text: "a" });
  const trip = log.running.value?.trip as string;
  await log.show(trip);
  await saved(log);
  const other = await start();
  await other.show(trip);
  other.note("note", { text: "b" });
  await vi.waitFor(() => expect(log.records.value).toHaveLength(3));
});

it("a closed trip does not run, and one nobody has noted in for a day keeps nobody at sea", async () => {
  const log = await start();
  log.note("note", { text: "a" });
  const trip = log.running.value?.trip as string;
  await log.show(trip);
  await saved(log);
  expect(log.atSea.value).toBe(true);
  vi.spyOn(Date, "now").mockReturnValue(Date.now() + 24 * 3600_000);
  await log.refresh();
  expect(log.atSea.value).toBe(false);
  expect(log.running.value).toBeUndefined();
  log.amend(log.records.value[0] as Folded, { closed: null });
  await saved(log);
  expect(log.running.value?.trip).toBe(trip);
  log.amend(log.records.value[0] as Folded, { closed: Date.now() });
  await saved(log);
  expect(log.running.value).toBeUndefined();
});

/** The server takes nothing of what waits, and has this to say of one entry. */
async function refuse(log: Log, id: string, code = "trip"): Promise<void> {
  const batch = await log.book.batch(200, 1e6);
  await log.book.take(batch, {
    cursor: { epoch: "e", since: 0, check: "", more: false },
    taken: [],
    refused: [{ id, code, why: "Not this trip." }],
    entries: [],
    spoilt: [],
    you: { device: "d", name: "A", role: "mate", may: ["trips", "crew"] },
  });
}

it("what was refused is said again with the amendment", async () => {
  const log = await start();
  log.note("mark", { rod: "port", fish: "bass" });
  const trip = log.running.value?.trip as string;
  await log.show(trip);
  await saved(log);
  const mark = () => log.records.value.find((record) => record.kind === "mark") as Folded;
  const id = (await log.book.entriesOf(trip)).find((one) => one.kind === "mark")?.id as string;
  await refuse(log, id);
  await log.changed();
  log.amend(mark(), { rod: "starboard" });
  await saved(log);
  const after = await log.book.entriesOf(trip);
  expect(after.find((one) => one.id === id)).toMatchObject({ replaced: expect.any(String) });
  expect(after.find((one) => one.kind === "mark" && !one.replaced)).toMatchObject({
    prev: [],
    set: { rod: "starboard", fish: "bass" },
  });
  expect(log.standing.value.refused).toEqual([]);
});

it("tells that what is on disk could not be read, shows what is noted all the same, and reads it later", async () => {
  const before = await start();
  before.note("note", { text: "a" });
  const trip = before.running.value?.trip as string;
  await before.show(trip);
  await saved(before);

  vi.resetModules();
  const log = await import("./log");
  const { storageTroubles } = await import("../../base/store/kept");
  vi.spyOn(log.book, "summaries").mockRejectedValue(new Error("closed"));
  await log.loadLog();
  expect(storageTroubles.value).toContainEqual({ kind: "unopened", name: "log" });
  expect(log.summaries.value).toBeUndefined();
  vi.restoreAllMocks();
  await log.refresh();
  expect(log.running.value?.trip).toBe(trip);
});

it("a phone that is told to note in another trip does so after a restart too", async () => {
  const log = await start();
  log.note("note", { text: "a" });
  const first = log.running.value?.trip as string;
  await log.show(first);
  await saved(log);
  const second = log.startTrip({ name: "the other one" });
  expect(log.running.value?.trip).toBe(second);
  await vi.waitFor(() =>
    expect(log.openTrips.value.map((trip) => trip.trip).sort()).toEqual([first, second].sort()),
  );
  log.noteIn(first);
  await vi.waitFor(async () => expect(await log.book.meta("current")).toBe(first));
  const later = await start();
  expect(later.running.value?.trip).toBe(first);
});

const picture = (sha256: string) => ({ sha256, type: "image/jpeg", bytes: new ArrayBuffer(8) });

it("saves the notes behind a photo that the disk has no room for, and the photo once there is room", async () => {
  const log = await start();
  const { put } = IDBObjectStore.prototype;
  let full = true;
  vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, value, key) {
    if (full && this.name === "photos") throw new DOMException("full", "QuotaExceededError");
    return key === undefined ? put.call(this, value) : put.call(this, value, key);
  });
  const photo = log.note("photo", { sha256: "a" }, { photos: [{ full: picture("a"), thumb: picture("a") }] });
  const note = log.note("note", { text: "kept all the same" });
  await vi.waitFor(() => expect(log.isSaved(note)).toBe(true));
  expect(log.isSaved(photo)).toBe(false);
  expect(log.storageTroubles.value).toContainEqual({ kind: "unsaved", name: "log", full: true });
  full = false;
  await vi.waitFor(() => expect(log.isSaved(photo)).toBe(true));
  expect(log.storageTroubles.value).toEqual([]);
});

it("lets go of photos of others, which the server has, to make room for a note", async () => {
  const log = await start();
  await log.book.append([], { photos: [{ full: picture("own"), thumb: picture("own") }] });
  await log.book.keepPhoto(picture("theirs"), picture("theirs"));
  const { put } = IDBObjectStore.prototype;
  vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, value, key) {
    // Room comes only with the photo gone.
    if (this.name === "entries" && !gone) throw new DOMException("full", "QuotaExceededError");
    return key === undefined ? put.call(this, value) : put.call(this, value, key);
  });
  let gone = false;
  const remove = IDBCursor.prototype.delete;
  vi.spyOn(IDBCursor.prototype, "delete").mockImplementation(function (this: IDBCursor) {
    gone = true;
    return remove.call(this);
  });
  const note = log.note("note", { text: "a" });
  await vi.waitFor(() => expect(log.isSaved(note)).toBe(true));
  expect(await log.book.photo("own")).toBeDefined();
  expect(await log.book.photo("theirs")).toBeUndefined();
  expect(await log.book.thumb("theirs")).toBeDefined();
});

/** Takes what others wrote, as this phone in this role. */
async function receive(log: Log, you: Partial<You>, entries: Partial<Numbered>[]): Promise<void> {
  const batch = await log.book.batch(0, 0);
  const since = batch.cursor.since + entries.length;
  await log.book.take(batch, {
    cursor: { epoch: "e", since, check: "", more: false },
    taken: [],
    refused: [],
    entries: entries.map((entry, i) => ({
      ...{ id: uuid(), record: uuid(), kind: "note", trip: boats, prev: [], set: { text: "x" } },
      ...{ at: Date.now(), n: i + 1, by: "ben", byName: "Ben", no: batch.cursor.since + 1 + i },
      ...entry,
    })),
    spoilt: [],
    you: { device: "d", name: "A", role: "mate", may: ["trips", "crew"], ...you },
  });
  await log.changed();
}
const boats = "c2a9f0d4-7b1e-4f38-8e65-9d0b1a2c3f4e";
const opened = (trip: string, set: object = {}): Partial<Numbered> => ({
  record: trip,
  kind: "trip",
  trip,
  set: { opened: Date.now(), ...set },
});
const guest = { role: "guest", may: [] as You["may"], trip: boats };

it.each([
  ["a mate's", {}],
  ["a guest's", guest],
])("%s first mark goes into the boat's open trip", async (_, you) => {
  const log = await start();
  await receive(log, you, [opened(boats)]);
  expect(log.note("mark", {}).trip).toBe(boats);
  await saved(log);
  expect(log.summaries.value).toHaveLength(1);
});

it("a guest whose trip is closed notes in one of its own, and nothing of it is called sent", async () => {
  const log = await start();
  await receive(log, guest, [opened(boats, { closed: Date.now() })]);
  const { trip } = log.note("mark", {});
  await saved(log);
  expect(trip).not.toBe(boats);
  expect(log.standing.value.unsent).toBe(0);
  expect(log.standing.value.held).toHaveLength(2);
  // It is opened again: from now on what is noted is the boat's.
  await receive(log, guest, [{ ...opened(boats, { closed: null }), prev: [] }]);
  expect(log.running.value?.trip).toBe(boats);
});

it("a guest that noted in a trip of its own notes in the boat's from when it comes aboard, the older one too", async () => {
  const log = await start();
  const { trip } = log.note("mark", {});
  await saved(log);
  expect(trip).not.toBe(boats);
  const before = { at: Date.now() - 3600_000 };
  await receive(log, guest, [{ ...opened(boats, { opened: before.at }), ...before }]);
  expect(log.running.value?.trip).toBe(boats);
});

it("two trips opened apart are asked about once, and are one from then on", async () => {
  const log = await start();
  log.startTrip({ name: "mine" });
  await saved(log);
  const mine = log.running.value?.trip as string;
  await receive(log, {}, [opened(boats, { opened: Date.now() - 60_000 }), { set: { text: "Ben's" } }]);
  expect(log.twoTrips.value?.map(({ trip }) => trip)).toEqual([boats, mine]);
  await log.sayOfTrip(mine, { into: boats });
  log.note("note", { text: "while it is said" });
  await saved(log);
  expect(log.twoTrips.value).toBeUndefined();
  expect(log.running.value).toMatchObject({ trip: boats, parts: [boats, mine] });
  // What is noted from now on goes to the one; what a phone writes into the other that knows nothing yet is seen with it.
  expect(log.note("note", { text: "after" }).trip).toBe(boats);
  await receive(log, {}, [{ trip: mine, set: { text: "knew nothing" } }]);
  await log.show(mine);
  await saved(log);
  const texts = log.records.value.flatMap(({ fields }) => fields.get("text")?.value ?? []);
  expect(texts.sort()).toEqual(["Ben's", "after", "knew nothing", "while it is said"]);
  // Said the other way round at the same time on another phone: still one, with the least id, and all of it there.
  await receive(log, {}, [{ ...opened(boats, { into: mine }) }]);
  expect(log.summaries.value).toHaveLength(1);
  expect(log.running.value?.trip).toBe([boats, mine].sort()[0]);
  await log.sayOfTrip(mine, { into: null });
  await log.sayOfTrip(boats, { into: null });
  await saved(log);
  expect(log.summaries.value).toHaveLength(2);
});

it("two that are to stay two are not asked about again, and a guest is not asked", async () => {
  const log = await start();
  log.startTrip({});
  await saved(log);
  await receive(log, {}, [opened(boats, { opened: 1 })]);
  expect(log.twoTrips.value).toBeDefined();
  await log.sayOfTrip(log.twoTrips.value?.[1].trip as string, { apart: true });
  await saved(log);
  expect(log.twoTrips.value).toBeUndefined();
  await receive(log, guest, []);
  await log.sayOfTrip(log.running.value?.trip as string, { apart: null });
  await saved(log);
  expect(log.twoTrips.value).toBeUndefined();
});

it("a phone whose clock is a day ahead notes in the trip that runs, and asks nobody to close it", async () => {
  const log = await start();
  const { clockAhead, noteClock } = await import("./clock");
  const first = log.note("note", { text: "by the right clock" });
  await saved(log);
  later(24);
  log.lookAnew();
  expect(log.unclosed.value).toHaveLength(1);
  noteClock(24 * 3600_000);
  expect(log.unclosed.value).toEqual([]);
  expect(log.running.value?.trip).toBe(first.trip);
  expect(log.note("note", { text: "a day ahead" }).trip).toBe(first.trip);
  await saved(log);
  await clockAhead.settled();
});

/** So many hours later, by this phone's clock. */
const later = (hours: number) => {
  const now = Date.now();
  vi.spyOn(Date, "now").mockReturnValue(now + hours * 3600_000);
};

it("what is noted after a night and a day begins another trip; the old one is asked to be closed", async () => {
  const log = await start();
  const first = log.note("note", { text: "yesterday" });
  await saved(log);
  later(17.9);
  log.lookAnew();
  expect(log.running.value?.trip).toBe(first.trip);
  expect(log.unclosed.value).toEqual([]);
  later(0.2);
  // Nothing has been read since: the tap itself finds that the old trip is over.
  const second = log.note("note", { text: "today" });
  expect(second.trip).not.toBe(first.trip);
  await saved(log);
  expect(log.running.value?.trip).toBe(second.trip);
  expect(log.twoTrips.value).toBeUndefined();
  expect(log.unclosed.value.map(({ trip }) => trip)).toEqual([first.trip]);
  await log.sayOfTrip(first.trip, { closed: Date.now() });
  await saved(log);
  expect(log.unclosed.value).toEqual([]);
  expect(log.running.value?.trip).toBe(second.trip);
});

it("an old trip that goes on runs at once, and after a restart too", async () => {
  const log = await start();
  const { trip } = log.note("note", { text: "at anchor" });
  await saved(log);
  later(40);
  log.lookAnew();
  expect(log.running.value).toBeUndefined();
  await log.goOnIn(trip);
  expect(log.note("note", { text: "and on" }).trip).toBe(trip);
  await saved(log);
  expect(log.unclosed.value).toEqual([]);
  expect((await start()).running.value?.trip).toBe(trip);
});

it("two trips of one outing are asked about however long ago it was, and as one they are asked to be closed", async () => {
  const log = await start();
  const { trip: mine } = log.note("note", { text: "mine" });
  await saved(log);
  await receive(log, {}, [opened(boats, { opened: Date.now() - 60_000 })]);
  later(72);
  await log.refresh();
  expect(log.twoTrips.value?.map(({ trip }) => trip)).toEqual([boats, mine]);
  expect(log.unclosed.value).toEqual([]);
  // Before the answer, what is noted begins neither again.
  const { trip: next } = log.note("note", { text: "another day" });
  await saved(log);
  expect([boats, mine]).not.toContain(next);
  expect(log.twoTrips.value?.map(({ trip }) => trip)).toEqual([boats, mine]);
  await log.sayOfTrip(mine, { apart: true });
  await saved(log);
  expect(log.twoTrips.value).toBeUndefined();
  expect(log.unclosed.value.map(({ trip }) => trip).sort()).toEqual([boats, mine].sort());
  expect(log.running.value?.trip).toBe(next);
});

it("a mate who comes after a night notes in the trip that another began meanwhile", async () => {
  const log = await start();
  log.note("note", { text: "yesterday" });
  await saved(log);
  later(20);
  await receive(log, {}, [opened(boats)]);
  expect(log.running.value?.trip).toBe(boats);
  expect(log.note("mark", {}).trip).toBe(boats);
  expect(log.twoTrips.value).toBeUndefined();
});

it("a guest notes in the trip of the invitation while it is open, and is not asked to close it", async () => {
  const log = await start();
  await receive(log, guest, [opened(boats)]);
  expect(log.running.value?.trip).toBe(boats);
  later(30);
  log.lookAnew();
  expect(log.note("mark", {}).trip).toBe(boats);
  await saved(log);
  later(30);
  await log.refresh();
  expect(log.unclosed.value).toEqual([]);
});

it("closing and making one cross: what is noted goes on where the one is open, and nothing is lost", async () => {
  const log = await start();
  log.startTrip({});
  await saved(log);
  const mine = log.running.value?.trip as string;
  await receive(log, {}, [opened(boats, { opened: 1 })]);
  await log.sayOfTrip(mine, { into: boats });
  await log.sayOfTrip(mine, { closed: 5 });
  await saved(log);
  expect(log.running.value?.trip).toBe(boats);
  await receive(log, {}, [{ ...opened(boats, { closed: 7 }) }]);
  expect(log.running.value).toBeUndefined();
  expect(log.noted.value).toMatchObject({ trip: boats, closed: 7, closedBy: "Ben" });
});

it("a guest amends own records and what is anybody's; another's it proposes to change, once", async () => {
  const log = await start();
  const theirs = uuid();
  const check = uuid();
  await receive(log, guest, [
    opened(boats),
    { kind: "mark", record: theirs, set: { fish: "bluefish" } },
    { kind: "tick", record: check, set: { item: "plug", done: true } },
  ]);
  await log.show(boats);
  const find = (id: string) => log.records.value.find((record) => record.id === id) as Folded;
  const own = log.note("mark", {});
  await saved(log);
  log.amend(find(own.id), { fish: "striped bass" });
  log.amend(find(check), { done: false });
  log.amend(find(theirs), { fish: "striped bass" });
  await saved(log);
  log.amend(find(theirs), { length: 0.8 });
  log.strike(find(theirs));
  await saved(log);
  expect(find(own.id).fields.get("fish")?.value).toBe("striped bass");
  expect(find(check).fields.get("done")?.value).toBe(false);
  expect(find(theirs).entries).toHaveLength(1);
  const proposals = log.records.value.filter(({ kind }) => kind === "proposal");
  expect(proposals).toHaveLength(1);
  expect(proposals[0]?.fields.get("says")?.value).toEqual({
    fish: "striped bass",
    length: 0.8,
    struck: true,
  });
  expect(proposals[0]?.fields.get("of")?.value).toBe(theirs);
});

it("what the server refused of another's record is said again as a proposal", async () => {
  const log = await start();
  await receive(log, guest, [opened(boats)]);
  await log.show(boats);
  const own = log.note("mark", { fish: "bluefish" });
  await saved(log);
  // As of a phone that came aboard anew: the server does not know that it began the record.
  const [entry] = (await log.book.entriesOf(boats)).filter(({ record }) => record === own.id);
  const batch = await log.book.batch(200, 1e6);
  await log.book.take(batch, {
    cursor: { ...batch.cursor, since: batch.cursor.since + 1 },
    taken: [],
    refused: [{ id: entry?.id as string, code: "others", why: "" }],
    entries: [],
    spoilt: [],
    you: { device: "d", name: "A", ...guest },
  });
  await log.changed();
  log.amend(log.records.value.find(({ id }) => id === own.id) as Folded, {});
  await saved(log);
  expect(log.records.value.find(({ kind }) => kind === "proposal")?.fields.get("says")?.value).toEqual({
    fish: "bluefish",
  });
  expect(log.standing.value.refused).toEqual([]);
});
