import "fake-indexeddb/auto";
import { openDB } from "idb";
import { describe, expect, it, vi } from "vitest";
import type { Right } from "../../entry/contract";
import type { Draft } from "../../entry/entry";
import { type Key, makeKey, markOf } from "../../entry/mark";
import { uuid } from "../../entry/uuid";
import { Book } from "./book";

const trip = uuid();
const note = (text: string, more: Partial<Draft> = {}): Draft => ({
  id: uuid(),
  record: uuid(),
  kind: "note",
  trip,
  prev: [],
  set: { text },
  at: 1,
  ...more,
});
const picture = (sha256: string) => ({ sha256, type: "image/jpeg", bytes: new ArrayBuffer(8) });

describe("the log on this phone", () => {
  it("counts its entries without a gap, also when two tabs write at once", async () => {
    const name = uuid();
    const tabs = [new Book(name), new Book(name)];
    await Promise.all(
      Array.from({ length: 40 }, (_, i) => (tabs[i % 2] as Book).append([note(`${i}`), note(`${i}, more`)])),
    );
    const counts = (await (tabs[0] as Book).entriesOf(trip)).map((entry) => entry.n);
    expect(counts.sort((a, b) => a - b)).toEqual(Array.from({ length: 80 }, (_, i) => i + 1));
  });

  it("is written with strict durability", async () => {
    const book = new Book(uuid());
    await book.summaries();
    const asked = vi.spyOn(IDBDatabase.prototype, "transaction");
    await book.append([note("a")]);
    expect(asked.mock.calls.map(([, mode, options]) => [mode, options])).toEqual([
      ["readwrite", { durability: "strict" }],
    ]);
    asked.mockRestore();
  });

  it("has an entry once, however often it is written", async () => {
    const book = new Book(uuid());
    const one = note("a");
    await book.append([one]);
    await book.append([one, note("b")]);
    expect((await book.entriesOf(trip)).map((entry) => entry.n).sort()).toEqual([1, 2]);
  });

  it("finds the entries of a kind, over all trips, also of a log that an older app began", async () => {
    const name = uuid();
    const old = await openDB(name, 1, {
      upgrade(db) {
        const entries = db.createObjectStore("entries", { keyPath: "id" });
        for (const path of ["trip", "no", "out"]) entries.createIndex(path, path);
        entries.createIndex("outOfTrip", ["trip", "out"]);
        entries.createIndex("refused", "refused.code");
        db.createObjectStore("trips", { keyPath: "trip" });
        for (const store of ["photos", "thumbs"]) db.createObjectStore(store, { keyPath: "sha256" });
        db.createObjectStore("meta");
      },
    });
    await old.put("entries", { ...note("old"), n: 1, own: true });
    await old.put("meta", { device: "d", name: "n", role: "mate" }, "you");
    await old.put("entries", { ...note("older touch", { kind: "touch" }), n: 2, own: true });
    old.close();
    const book = new Book(name);
    await book.append([note("a touch", { kind: "touch", trip: uuid() }), note("clear", { kind: "clear" })]);
    const found = await book.entriesOfKinds(["touch", "clear"]);
    expect(found.map(({ set }) => set?.text).sort()).toEqual(["a touch", "clear", "older touch"]);
    expect(await book.entriesOf(trip)).toHaveLength(3);
    // It had no word of what the phone may do.
    expect((await book.meta("you"))?.may).toEqual(["trips", "crew"]);
  });

  it("survives the browser closing the connection", async () => {
    const book = new Book(uuid());
    await book.append([note("a")]);
    await book.close();
    await book.append([note("b")]);
    expect(await book.entriesOf(trip)).toHaveLength(2);
  });

  it("has not saved an entry when the disk says no, nor counted it, nor its photo", async () => {
    const book = new Book(uuid());
    await book.append([note("a")]);
    const { put } = IDBObjectStore.prototype;
    for (let failing = 1; failing <= 8; failing++) {
      let puts = 0;
      const spy = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (
        this: IDBObjectStore,
        value,
        key,
      ) {
        if (++puts >= failing) throw new DOMException("full", "QuotaExceededError");
        return key === undefined ? put.call(this, value) : put.call(this, value, key);
      });
      const photos = [{ full: picture("f"), thumb: picture("f") }];
      await expect(book.append([note("b")], { photos })).rejects.toThrow("full");
      spy.mockRestore();
      expect(await book.entriesOf(trip)).toHaveLength(1);
      expect(await book.meta("n")).toBe(1);
      expect(await book.photo("f")).toBeUndefined();
    }
    await book.append([note("b")]);
    expect((await book.entriesOf(trip)).map((entry) => entry.n).sort()).toEqual([1, 2]);
  });

  it("keeps the list of trips true in the same transaction", async () => {
    const book = new Book(uuid());
    const first = note("", { record: trip, kind: "trip", set: { name: "Ledge", opened: 5 } });
    await book.append([first]);
    expect(await book.summaries()).toEqual([
      {
        trip,
        name: "Ledge",
        ground: "",
        opened: 5,
        closed: null,
        struck: false,
        last: 1,
        hookups: 0,
        first: 1,
        told: 5,
        into: null,
        apart: false,
        who: "",
        boat: "",
        closedBy: null,
        unsent: 1,
      },
    ]);
    const mark = note("", { kind: "mark", set: { rod: "port" }, at: 9 });
    await book.append([mark, note("", { kind: "mark" })]);
    await book.append([
      { ...note("", { ...mark, id: uuid(), prev: [mark.id], strike: true }), set: undefined as never },
    ]);
    await book.append([
      note("", { ...first, id: uuid(), prev: [first.id], set: { closed: 8, ground: "Off the point" } }),
    ]);
    expect(await book.summaries()).toMatchObject([
      { name: "Ledge", ground: "Off the point", closed: 8, last: 9, hookups: 1 },
    ]);
  });

  it("takes over from a file what it has not got, and leaves the rest as it is", async () => {
    const book = new Book(uuid());
    const one = note("a");
    await book.append([one]);
    const [own] = await book.entriesOf(trip);
    const other = { ...note("b"), n: 7, by: "ben", byName: "Ben's phone" };
    const nobodys = { ...note("c"), n: 7 };
    const changed = { ...note("b"), n: 8, record: other.record, prev: [other.id], by: "ben" };
    const file = [{ ...one, n: 1, set: { text: "forged" } }, other, changed, nobodys];
    // A note and a change of it are one note to whoever is told.
    expect(await book.adopt(file, "someone")).toBe(2);
    const held = new Map((await book.entriesOf(trip)).map((entry) => [entry.id, entry]));
    expect(held.get(one.id)).toEqual(own);
    expect(held.get(other.id)).not.toHaveProperty("own");
    expect(held.get(nobodys.id)).toMatchObject({ byName: "someone", by: expect.any(String) });
    expect(held.get(nobodys.id)).not.toHaveProperty("own");
    expect(await book.standing()).toMatchObject({ unsent: 4, refused: [], held: [], photos: [] });
  });

  it("sends of one trip what a phone may see of one only, and of all what it may see of all", async () => {
    const book = new Book(uuid());
    const another = uuid();
    await book.append([note("a"), note("b"), note("of another", { trip: another })]);
    const sends = async (you?: { may: Right[]; trip?: string; trips?: string[] }) => {
      if (you) await book.setMeta("you", { device: "d", name: "n", role: "any", ...you });
      const [{ unsent }, { entries }] = [await book.standing(), await book.batch(10, 10_000)];
      expect(entries.length).toBe(unsent);
      return entries.map(({ set }) => set?.text).sort();
    };
    const all = ["a", "b", "of another"];
    expect(await sends()).toEqual(all);
    expect(await sends({ may: ["trips"] })).toEqual(all);
    expect(await sends({ may: ["trips"], trip })).toEqual(all);
    expect(await sends({ may: ["crew", "invite"], trip })).toEqual(["a", "b"]);
    expect(await sends({ may: [], trip, trips: [trip, another] })).toEqual(all);
    expect(await sends({ may: [] })).toEqual([]);
  });

  it("brings nothing anew that the same log had numbered before: a guest who was in another trip meanwhile", async () => {
    const book = new Book(uuid());
    const other = uuid();
    const guest = { device: "gus", name: "Gus", role: "guest", may: [] as Right[] };
    const of = (trip: string) => ({ ...guest, trip, trips: [trip] });
    const hers = { ...note("over"), n: 1, by: "ann", byName: "Ann", no: 1 };
    const answers = async (epoch: string, you: typeof guest, more: object) =>
      book.take(await book.batch(10, 10_000), {
        cursor: { epoch, since: 9, more: false },
        you,
        taken: [],
        refused: [],
        entries: [],
        spoilt: [],
        ...more,
      } as never);
    await answers("a.b.first", of(trip), { entries: [hers] });
    await answers("a.b.second", of(other), {});
    expect(await book.standing()).toMatchObject({ unsent: 0, held: [] });
    expect(await book.unsent()).toEqual([]);
    await answers("a.b.third", of(trip), { taken: [{ id: hers.id, no: 1 }] });
    const [entry] = await book.entriesOf(trip);
    expect(entry).toMatchObject({ by: "ann", byName: "Ann", no: 1 });
    expect(entry).not.toHaveProperty("via");
  });

  it("reads nothing of other trips to show one", async () => {
    const book = new Book(uuid());
    await book.append([note("a"), note("b", { trip: uuid() })]);
    expect(await book.entriesOf(trip)).toHaveLength(1);
  });

  it("sends no more at once than was asked for, in entries or in bytes", async () => {
    const book = new Book(uuid());
    await book.append(Array.from({ length: 10 }, () => note("x".repeat(1000))));
    expect((await book.batch(4, 1e6)).entries.map((entry) => entry.n)).toEqual([1, 2, 3, 4]);
    expect((await book.batch(10, 3900)).entries.length).toBe(3);
  });
});

it("keeps this phone's key, whose private half cannot be read", async () => {
  const key = (await makeKey()) as Key;
  const book = new Book(uuid());
  await book.setMeta("key", key);
  const kept = (await book.meta("key")) as Key;
  expect(kept.public).toBe(key.public);
  await expect(crypto.subtle.exportKey("pkcs8", kept.private)).rejects.toThrow();
  expect(await markOf(kept, "n", { ...note("a"), n: 1 })).toHaveLength(130);
});

/** Entries that are out, refused, taken, or another under the same id: each trip knows how many wait to be sent. */
it("counts what is to be sent as it changes, and anew for a log of an older app", async () => {
  const name = uuid();
  const book = new Book(name);
  const another = uuid();
  const [a, b, c] = [note("a"), note("b"), note("c")];
  const counts = async (of: Book) =>
    Object.fromEntries((await of.summaries()).map(({ trip, unsent }) => [trip, unsent]));
  await book.append([a, b, c, note("of another", { trip: another })]);
  await book.adopt([{ ...note("brought"), n: 3 }], "someone");
  expect(await counts(book)).toEqual({ [trip]: 4, [another]: 1 });
  await book.holdBack([a.id], { code: "size", why: "" });
  await book.settle(a.id, "kept");
  const you = { device: "d", name: "n", role: "mate", may: ["trips" as const] };
  const batch = await book.batch(10, 10_000);
  const answer = {
    cursor: { epoch: "e.0", since: 1, check: "c", more: false },
    refused: [],
    spoilt: [],
    you,
  };
  await book.take(batch, { ...answer, taken: [{ id: b.id, no: 1 }], entries: [] });
  expect(await counts(book)).toEqual({ [trip]: 2, [another]: 1 });
  // Something else was taken elsewhere under the id of the last one, which is refused under an id of its own.
  const other = { ...note("other"), id: c.id, trip: another, n: 1, no: 2, by: "x", byName: "x" };
  const then = { ...answer, cursor: { ...answer.cursor, since: 2 }, taken: [], entries: [other] };
  await book.take(await book.batch(0, 0), then);
  expect(await counts(book)).toEqual({ [trip]: 1, [another]: 1 });
  expect(await book.standing()).toMatchObject({ unsent: 2, refused: [{ set: { text: "c" } }] });
  await book.close();
  const copy = await openDB(`${name} older`, 5, {
    upgrade(db) {
      const entries = db.createObjectStore("entries", { keyPath: "id" });
      for (const path of ["trip", "record", "kind", "no", "out"]) entries.createIndex(path, path);
      entries.createIndex("outOfTrip", ["trip", "out"]);
      entries.createIndex("refused", "refused.code");
      entries.createIndex("kept", "kept.code");
      db.createObjectStore("trips", { keyPath: "trip" });
      for (const store of ["photos", "thumbs"]) db.createObjectStore(store, { keyPath: "sha256" });
      db.createObjectStore("shipments", { keyPath: "sha256" }).createIndex("out", "out");
      db.createObjectStore("meta");
    },
  });
  const from = await openDB(name);
  for (const entry of await from.getAll("entries")) await copy.put("entries", entry);
  for (const { unsent: _, ...older } of await from.getAll("trips")) await copy.put("trips", older);
  from.close();
  copy.close();
  expect(await counts(new Book(`${name} older`))).toEqual({ [trip]: 1, [another]: 1 });
});
