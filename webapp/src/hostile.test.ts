/** Whatever the server takes, this phone stores, folds and tells; and of what it would not take, it keeps the rest. */
import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import fc from "fast-check";
import { beforeEach, expect, it, vi } from "vitest";
import { anyEntry, inherited, unkept } from "./state/entry/any";
import { type Entry, faultOf } from "./state/entry/entry";
import { uuid } from "./state/entry/uuid";
import { readAnswer } from "./state/exchange/wire";
import { theLog } from "./state/log/saying/started";

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
});

/** The app with its own database. */
async function start() {
  vi.resetModules();
  const log = await theLog();
  // Its words are kept beside each record, as the app has it done from its start.
  const { sayings, search } = await import("./state/notes/search/search");
  (await import("./state/log/beside/projecting")).sayIn(sayings.value);
  return {
    log,
    fold: await import("./state/entry/fold"),
    words: await import("./state/notes/words"),
    tripName: (await import("./state/notes/trip-name")).tripName,
    search,
    lists: await import("./state/crew/lists"),
    ticks: await import("./state/crew/ticks"),
    told: await import("./state/crew/told"),
    boat: await import("./state/crew/boat"),
    count: await import("./state/fish/count"),
    people: await import("./state/fish/people"),
    share: await import("./state/rules/share"),
    observe: await import("./state/calibrate/observe"),
    file: await import("./state/log/disk/file"),
  };
}

type App = Awaited<ReturnType<typeof start>>;

/** Brings entries to the phone as the server would, page by page. */
async function bring({ log }: App, entries: Entry[]): Promise<void> {
  for (let from = 0; from < entries.length; from += 200) {
    const batch = await log.book.batch(0, 0);
    const page = entries.slice(from, from + 200);
    const last = from + page.length;
    const answer = {
      version: 1,
      epoch: "e",
      taken: [],
      refused: [],
      entries: page.map((entry, i) => ({ ...entry, no: from + i + 1, by: uuid(), byName: "Ann" })),
      upto: last,
      check: "c",
      more: last < entries.length,
      now: 1,
      you: { device: uuid(), name: "Ben", role: "mate", may: ["trips", "crew"] },
      photos: { wanted: [] },
    };
    expect(await log.book.take(batch, readAnswer(answer, batch))).toBe(true);
  }
  await log.changed();
}

/** Says all there is to say of a trip, as the screens do. */
async function tell(app: App, trip: string): Promise<string[]> {
  const { log, words, fold } = app;
  await log.show(trip);
  await log.refresh();
  log.noteIn(trip);
  const said: string[] = [];
  const say = (...all: (string | number | undefined)[]) => said.push(...all.map(String));
  for (const record of log.records.value) {
    say(words.kindName(record.kind), words.recordWords(record), ...words.positionWords(record));
    say(words.timeOf(record), fold.words(record, "name"), fold.number(record, "length"));
    for (const entry of record.entries) {
      say(words.writerWords(entry));
      for (const [field, value] of Object.entries(entry.set ?? {}))
        say(words.fieldName(field), words.valueWords(record.kind, field, value));
    }
    for (const [field, versions] of record.conflicts)
      for (const { value } of versions) say(words.valueWords(record.kind, field, value));
  }
  for (const entry of log.unreadable.value) say(words.writerWords(entry));
  for (const summary of log.summaries.value ?? []) say(app.tripName(summary), summary.hookups);
  for (const list of app.lists.checklists.value) {
    say(app.lists.listName(list), app.ticks.doneOf(list), ...list.items.map(app.lists.checkWords));
  }
  say(...app.told.guests.value.map(({ name }) => name), app.boat.boat.value.name, app.people.bagNow().length);
  say(app.count.keptToday(log.records.value, [], Date.now()).length, app.share.offered.value.length);
  say(app.observe.notedIn(await log.book.entriesOf(trip)).length);
  return said;
}

const sample = (trips: string[], count: number): Entry[] =>
  fc.sample(anyEntry(trips), { numRuns: count, seed: 20310601 }).filter((entry) => !faultOf(entry));

const many = Number(process.env.WIREWAKE_ENTRIES ?? 2500);

it(
  "stores, folds and tells whatever the server takes",
  async () => {
    const app = await start();
    const trips = [uuid(), uuid()] as [string, string];
    const entries = sample(trips, many);
    expect(entries.length).toBeGreaterThan(0.9 * many);
    await bring(app, entries);
    expect(app.log.summaries.value).toHaveLength(2);
    for (const trip of trips) {
      const said = await tell(app, trip);
      expect(said.length).toBeGreaterThan(many / 4);
      // Nothing of an object's own is taken for a word.
      expect(said.filter((one) => /native code|\[object|undefined undefined/.test(one))).toEqual([]);
      expect(app.log.unreadable.value).toEqual([]);
      const held = await app.log.book.entriesOf(trip);
      expect(app.file.fromFile(app.file.toFile(held, 1))).toHaveLength(held.length);
    }
    const hits = [];
    for await (const found of app.search(app.log.summaries.value ?? [], "x", new AbortController().signal))
      hits.push(...found);
    expect(hits.length).toBeGreaterThan(0);
  },
  Math.max(120_000, 100 * many),
);

it("keeps what does not keep the contract, passes it over, and goes on", async () => {
  const app = await start();
  const trip = uuid();
  const odd = unkept(trip);
  const good = sample([trip], 300);
  await bring(app, [...good.slice(0, 150), ...odd, ...good.slice(150)]);
  await tell(app, trip);
  expect(app.log.unreadable.value).toHaveLength(odd.length);
  expect(app.log.records.value.flatMap(({ entries }) => entries).every((entry) => !entry.unreadable)).toBe(
    true,
  );
  // A phone that fetches all of it anew holds the same, and one that writes goes on.
  app.log.note("note", { text: "and on" });
  await vi.waitFor(async () =>
    expect((await app.log.book.entriesOfKinds(["note"])).some(({ set }) => set?.text === "and on")).toBe(
      true,
    ),
  );
  const own = (await app.log.book.entriesOfKinds(["note"])).find(({ set }) => set?.text === "and on");
  expect(own?.n).toBeLessThan(3);
  // In a file they go on as they came.
  const held = await app.log.book.entriesOf(trip);
  expect(app.file.fromFile(app.file.toFile(held, 1)).filter((one) => one.unreadable)).toHaveLength(
    odd.length,
  );
});

it("takes a word that every object has for a word", async () => {
  const app = await start();
  const trip = uuid();
  const entries = inherited.flatMap((word, i) =>
    (
      [
        ["list", { list: word, name: "", items: [word] }],
        ["tick", { list: word, item: word, done: true }],
        ["person", { name: word }],
        ["briefed", { person: word, done: true }],
        ["mark", { fish: word, fate: word, hook: word, colour: word, person: word }],
        ["trouble", { gear: word, what: word }],
      ] as const
    ).map(([kind, set], k) => ({
      ...{ id: uuid(), record: uuid(), kind, trip, prev: [], set: { ...set }, at: 1, n: 1 + i * 10 + k },
    })),
  );
  await bring(app, [
    {
      id: uuid(),
      record: trip,
      kind: "trip",
      trip,
      prev: [],
      set: { opened: Date.now() },
      at: Date.now(),
      n: 1,
    },
    ...entries,
  ]);
  const said = await tell(app, trip);
  expect(said.filter((one) => /native code|\[object/.test(one))).toEqual([]);
  expect(app.told.guests.value.map(({ name }) => name)).toEqual(expect.arrayContaining(inherited));
});

it("tells what cannot be read of an older app's own storage, and the trips as they are without it", async () => {
  const { openDB } = await import("idb");
  const trip = uuid();
  const db = await openDB("wirewake-log", 3, {
    upgrade(old) {
      const entries = old.createObjectStore("entries", { keyPath: "id" });
      entries.createIndex("trip", "trip");
      entries.createIndex("no", "no");
      entries.createIndex("out", "out");
      entries.createIndex("outOfTrip", ["trip", "out"]);
      entries.createIndex("refused", "refused.code");
      entries.createIndex("kind", "kind");
      old.createObjectStore("trips", { keyPath: "trip" });
      old.createObjectStore("photos", { keyPath: "sha256" });
      old.createObjectStore("thumbs", { keyPath: "sha256" });
      old.createObjectStore("shipments", { keyPath: "sha256" }).createIndex("out", "out");
      old.createObjectStore("meta");
    },
  });
  const good = {
    id: uuid(),
    record: trip,
    kind: "trip",
    trip,
    prev: [],
    set: { name: "Ledge", opened: 5 },
    at: 9,
    n: 1,
    no: 1,
  };
  const bad = { ...good, id: uuid(), record: uuid(), kind: "constructor", n: 2, no: 2 };
  await db.put("entries", good);
  await db.put("entries", bad);
  await db.put("trips", {
    trip,
    name: "?",
    ground: "",
    opened: 1e300,
    closed: null,
    struck: false,
    last: 9,
    hookups: 7,
  });
  await db.put("meta", { device: "d", name: "Gus", role: "guest", trip }, "you");
  db.close();
  const app = await start();
  await app.log.loadLog();
  await tell(app, trip);
  expect(app.log.summaries.value).toMatchObject([{ name: "Ledge", opened: 5, hookups: 0 }]);
  expect(app.log.unreadable.value.map(({ id }) => id)).toEqual([bad.id]);
  expect(app.log.you.value).toMatchObject({ may: [] });
});
