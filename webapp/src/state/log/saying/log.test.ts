import { expect, it, vi } from "vitest";
import { faultOfContent } from "../../entry/contract";
import { type Folded, words } from "../../entry/fold";
import { uuid } from "../../entry/uuid";
import { boats, guest, type Log, opened, receive, saved, start, theLog } from "./started";

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

it("notes at once, in a trip that it begins by itself, and says when it is saved", async () => {
  const log = await start();
  expect(log.running.value).toBeUndefined();
  const first = log.note("mark", { rod: "port" });
  const trip = log.running.value?.trip as string;
  log.note("note", { text: "second" });
  expect(log.running.value?.trip).toBe(trip);
  const showing = log.show(trip);
  expect(log.shownTrip.value).toBe(trip);
  expect(log.records.value.map((record) => record.kind)).toEqual(["trip", "mark", "note"]);
  const mark = log.records.value.find((record) => record.id === first.id);
  expect(mark && log.isSaved(mark)).toBe(false);
  await showing;
  await saved(log);

  const later = await start();
  expect(later.running.value).toMatchObject({ trip, hookups: 1 });
  await later.show(trip);
  expect(later.shownTrip.value).toBe(trip);
  expect(later.records.value.map((record) => record.kind)).toEqual(["trip", "mark", "note"]);
});

it("says of a trip that is still being read neither what it has nor what it has not", async () => {
  const log = await start();
  log.note("mark", { rod: "port" });
  await saved(log);
  const first = log.running.value?.trip as string;
  log.startTrip({});
  await saved(log);
  await log.show(log.running.value?.trip as string);
  const reading = log.show(first);
  expect(log.records.value).toEqual([]);
  expect(log.shownTrip.value).toBeUndefined();
  await reading;
  expect(log.shownTrip.value).toBe(first);
  expect(log.records.value.map((record) => record.kind)).toEqual(["trip", "mark"]);
});

it("notes a hookup of which nothing is known yet as the server takes it", async () => {
  const log = await start();
  const mark = log.note("mark", {});
  expect(mark).toMatchObject({ struck: false, fields: new Map() });
  expect(faultOfContent(mark.entries[0])).toBeUndefined();
  expect(faultOfContent({ ...mark.entries[0], set: {} })).toBeDefined();
});

const hour = 3600_000;

it("notes what is of then in the trip that ran then, closed since or not, and else in one of then", async () => {
  const log = await start();
  const now = Date.now();
  const trips = () => (log.summaries.value ?? []).map(({ trip, opened }) => [trip, opened]);
  const early = log.startTrip({}, now - 30 * hour);
  await saved(log);
  await vi.waitFor(() => expect(trips()).toHaveLength(1));
  await log.sayOfTrip(early, { closed: now - 20 * hour });
  await saved(log);
  const today = log.startTrip({});
  await saved(log);
  await vi.waitFor(() => expect(log.tripOf(early)?.closed).toBe(now - 20 * hour));

  expect(log.noteOfThen("mark", {}, now - 25 * hour).trip).toBe(early);
  // Between the two none ran: both are of one that began then, and what runs goes on.
  const first = log.noteOfThen("mark", {}, now - 19 * hour);
  const second = log.noteOfThen("mark", {}, now - 18.5 * hour);
  expect([early, today]).not.toContain(first.trip);
  expect(second.trip).toBe(first.trip);
  expect(first.entries[0]?.at).toBe(now - 19 * hour);
  expect(log.running.value?.trip).toBe(today);
  await saved(log);
  await vi.waitFor(() => expect(trips()).toContainEqual([first.trip, now - 19 * hour]));
  expect(log.tripOf(first.trip)?.hookups).toBe(2);
  expect(log.tripOf(early)?.hookups).toBe(1);
  expect(log.running.value?.trip).toBe(today);
  expect(log.noteOfThen("mark", {}, Date.now()).trip).toBe(today);
});

it("begins a trip with what was noted a while ago where none runs, and goes on in it unless it is over by now", async () => {
  const log = await start();
  log.noteOfThen("mark", {}, Date.now() - 19 * hour);
  expect(log.running.value).toBeUndefined();
  const { trip } = log.noteOfThen("mark", {}, Date.now() - 0.2 * hour);
  expect(log.running.value?.trip).toBe(trip);
  expect(log.note("mark", {}).trip).toBe(trip);
});

it("notes what is of then in a guest's own trip and in no other", async () => {
  const log = await start();
  const other = uuid();
  const then = Date.now() - 2 * hour;
  await receive(log, guest, [opened(boats), opened(other, { opened: then - hour })]);
  expect(log.noteOfThen("mark", {}, then).trip).toBe(boats);
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
  const log = await theLog();
  const { storageTroubles } = await import("../../../base/store/kept");
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
