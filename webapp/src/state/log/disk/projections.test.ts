/**
 * Whatever is written, however it fails, what is kept beside the entries is what they come to when all of them are read and
 * folded: summaries after each step, records and words whenever all of them are said to be kept.
 */
import "fake-indexeddb/auto";
import fc from "fast-check";
import { openDB } from "idb";
import { expect, it, vi } from "vitest";
import { type Entry, held, type Numbered, type Stored } from "../../entry/entry";
import { type Folded, foldAll, number } from "../../entry/fold";
import { uuid } from "../../entry/uuid";
import { Book } from "./book";
import type { Words } from "./projections";
import { summarise } from "./summary";

const now = Date.UTC(2031, 5, 1);

const wordsOf = (version: string): Words => ({
  version,
  of: ({ kind, fields }: Folded) => `${version}\t${kind}\n${String(fields.get("text")?.value ?? "")}`,
});

/** What is kept of a log by its entries alone. */
function rebuilt(entries: Stored[], words: Words | undefined) {
  const trips = new Map<string, Stored[]>();
  for (const entry of entries) trips.set(entry.trip, [...(trips.get(entry.trip) ?? []), entry]);
  const summaries = [...trips.values()]
    .filter((all) => all.some(({ replaced }) => !replaced))
    .map((all) => summarise(all));
  const folded = [...trips.entries()].flatMap(([trip, all]) =>
    foldAll(all).map((record) => ({ trip, record })),
  );
  const lines = folded.map(({ trip, record }) => ({
    ...{ trip, record: record.id, of: record.kind + (record.fields.has("asked") ? " asked" : "") },
    back: record.struck ? undefined : -(number(record, "was") ?? (record.entries[0] as Stored).at),
  }));
  const said = folded.map(({ trip, record }) => [
    `${trip} ${record.id}`,
    (words?.of(record) ?? "").replace(/\s*\n\s*/g, " "),
  ]);
  return { summaries, lines, said: new Map(said as [string, string][]) };
}

const byTrip = <T extends { trip: string; record?: string }>(all: T[]): T[] =>
  [...all].sort((a, b) => (`${a.trip}${a.record}` < `${b.trip}${b.record}` ? -1 : 1));

/** What is on the disk. */
async function kept(name: string) {
  const db = await openDB(name);
  const entries: Stored[] = await db.getAll("entries");
  const trips = await db.getAll("trips");
  const records = await db.getAll("records");
  const pages = await db.getAll("words");
  db.close();
  return { entries, trips, records, pages };
}

async function holds(book: Book, name: string): Promise<void> {
  const { entries, trips, records, pages } = await kept(name);
  const all = rebuilt(entries, book.words);
  expect(byTrip(trips)).toEqual(byTrip(all.summaries));
  if (!(await book.isProjected())) return;
  const lines = records.map(({ trip, record, of, back }) => ({ trip, record, of, back }));
  expect(byTrip(lines)).toEqual(byTrip(all.lines));
  const said = new Map<string, string>();
  for (const page of pages)
    for (const line of page.lines.split("\n").slice(1)) {
      const [record = "", ...words] = line.split("\t");
      said.set(`${page.trip} ${record}`, words.join("\t"));
      expect(records.find((one) => one.record === record && one.trip === page.trip)?.page).toBe(page.page);
    }
  expect(said).toEqual(all.said);
  for (const trip of new Set(trips.map((one) => one.trip)))
    expect(byPage(await book.wordsOf([trip]))).toEqual(byPage(pages.filter((page) => page.trip === trip)));
}

const byPage = <T extends { page: number }>(all: T[]): T[] => [...all].sort((a, b) => a.page - b.page);

const trips = ["t", "u", "v"].map((end) => `5b0e8c1a-42d7-4d6f-9a53-0c1f2e3d4b5${end.charCodeAt(0) % 10}`);
const kinds = ["note", "mark", "touch", "boat", "trip"];
const records = kinds.flatMap((kind) =>
  trips.flatMap((trip) => [0, 1].map((i) => ({ kind, trip, record: kind === "trip" ? trip : uuid(), i }))),
);

const set = fc.record(
  {
    text: fc.constantFrom("a", "b\nc", "", "\tx"),
    name: fc.constantFrom("Ledge", "Shoal", null),
    was: fc.constantFrom(5, 2000, null),
    asked: fc.constantFrom("x", null),
    closed: fc.constantFrom(3000, null),
    into: fc.constantFrom(trips[0] as string, null),
    struck: fc.boolean(),
  },
  { requiredKeys: ["text"] },
);

/** One entry, as any phone may say it. */
const saying = fc
  .record({
    of: fc.constantFrom(...records),
    set: fc.option(set, { freq: 8, nil: undefined }),
    at: fc.constantFrom(1, 1000, 2000, now, now + 200 * 86_400_000),
    spoilt: fc.nat(9),
  })
  .map(({ of: { kind, trip, record }, set, at, spoilt }) => ({
    draft: {
      ...{ record, kind, trip, prev: [] as string[], at },
      ...(set ? { set: set as Entry["set"] & object } : { strike: true as const }),
    },
    isSpoilt: spoilt === 0,
  }));

type Saying = { draft: Omit<Entry, "id" | "n">; isSpoilt: boolean };

const step = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({
      do: fc.constant("append" as const),
      all: fc.array(saying, { minLength: 1, maxLength: 4 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant("adopt" as const), all: fc.array(saying, { maxLength: 4 }) }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant("take" as const),
      all: fc.array(saying, { maxLength: 4 }),
      most: fc.nat(6),
      refuse: fc.nat(3),
      /** Of what is held already: said anew by the server, perhaps otherwise. */
      anew: fc.array(fc.record({ at: fc.nat(50), other: fc.boolean() }), { maxLength: 3 }),
      epoch: fc.constantFrom("e.0", "e.0", "e.0", "e.0.guest", "f.0"),
      guest: fc.constantFrom(undefined, undefined, trips[1]),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("settle" as const), at: fc.nat(50) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("amend" as const), at: fc.nat(50), by: saying }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("hold" as const), at: fc.nat(50) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("move" as const), from: fc.nat(2), to: fc.nat(2) }) },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant("words" as const), version: fc.constantFrom("1", "2", "") }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant("remake" as const), count: fc.integer({ min: 1, max: 5 }) }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant("full" as const),
      by: saying,
      store: fc.constantFrom("records", "words"),
    }),
  },
);

type Step = typeof step extends fc.Arbitrary<infer T> ? T : never;

const draftOf = ({ draft }: Saying) => ({ ...draft, id: uuid() });

const one = async (book: Book, at: number): Promise<Stored | undefined> => {
  const all = await book.entriesOf(trips);
  return all[at % Math.max(1, all.length)];
};

async function act(book: Book, step: Step, count: () => number): Promise<void> {
  switch (step.do) {
    case "append":
      return book.append(step.all.map(draftOf));
    case "adopt":
      await book.adopt(
        step.all.map((saying) =>
          held({ ...draftOf(saying), n: 1, ...(saying.isSpoilt && { kind: "toString" }) }),
        ),
        "x",
      );
      return;
    case "settle": {
      const entry = await one(book, step.at);
      return entry && book.settle(entry.id, entry.refused ? "kept" : "refused");
    }
    case "amend": {
      const entry = await one(book, step.at);
      const next = draftOf(step.by);
      return book.append([next], entry && { replaced: [{ entry: entry.id, by: next.id }] });
    }
    case "hold": {
      const entry = await one(book, step.at);
      return entry?.out && book.holdBack([entry.id], { code: "size", why: "" });
    }
    case "move": {
      const from = (await book.entriesOf(trips[step.from] as string)).filter(({ own, no }) => own && !no);
      const to = trips[step.to] as string;
      const [first] = from.filter(({ kind }) => kind !== "trip");
      if (!first || step.from === step.to) return;
      const draft = { ...first, id: uuid(), record: uuid(), trip: to, prev: [] };
      const { n: _n, own: _own, out: _out, ...said } = draft;
      return book.move(
        first.trip,
        to,
        [{ draft: said, of: from.filter(({ record }) => record === first.record).map(({ id }) => id) }],
        from.filter(({ kind }) => kind === "trip").map(({ id }) => id),
      );
    }
    case "words":
      book.words = step.version ? wordsOf(step.version) : undefined;
      book.forgetWords();
      return;
    case "remake":
      await book.remake(step.count);
      return;
    case "full": {
      const { put } = IDBObjectStore.prototype;
      const spy = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (
        this: IDBObjectStore,
        value,
        key,
      ) {
        if (this.name === step.store) throw new DOMException("full", "QuotaExceededError");
        return key === undefined ? put.call(this, value) : put.call(this, value, key);
      });
      const draft = draftOf(step.by);
      await book.append([draft]);
      spy.mockRestore();
      expect((await book.entriesOf(draft.trip)).some(({ id }) => id === draft.id)).toBe(true);
      return;
    }
    case "take": {
      const batch = await book.batch(step.most, 1e6);
      const sent = batch.entries.map(({ id }, i) => ({ id, refused: i < step.refuse }));
      const all = await book.entriesOf(trips);
      const known = step.anew.flatMap(({ at, other }) => {
        const was = all[at % Math.max(1, all.length)];
        return was ? [{ ...was, ...(other && { at: was.at + 7, set: { text: "other" } }) }] : [];
      });
      const fresh = step.all.map((saying) =>
        held({ ...draftOf(saying), n: 1, ...(saying.isSpoilt && { at: -5 }) }),
      );
      const entries: Numbered[] = [...fresh, ...known].map((entry) => {
        const { id, record, kind, trip, prev, set, strike, at, n, unreadable } = entry as Stored;
        const says = set ? { set } : strike ? { strike } : { set: {} };
        return {
          ...{ id, record, kind, trip, prev, ...says, at, n, no: count(), by: "x", byName: "X" },
          ...(unreadable && { unreadable }),
        };
      });
      const taken = sent.filter(({ refused }) => !refused).map(({ id }) => ({ id, no: count() }));
      const you = { device: "d", name: "S", role: "skipper" };
      await book.take(batch, {
        cursor: { epoch: step.epoch, since: count(), check: "c", more: false },
        taken,
        refused: sent.filter(({ refused }) => refused).map(({ id }) => ({ id, code: "others", why: "" })),
        entries,
        spoilt: [],
        you: step.guest ? { ...you, may: [], trip: step.guest } : { ...you, may: ["trips", "crew"] },
      });
    }
  }
}

it("is what the entries come to, whatever is written and however often it is begun anew", async () => {
  vi.useFakeTimers({ now, toFake: ["Date"] });
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 14 }), async (steps) => {
      const name = uuid();
      const book = new Book(name);
      book.words = wordsOf("1");
      await book.summaries();
      let no = 0;
      for (const step of steps) {
        await act(book, step, () => ++no);
        await holds(book, name);
      }
      for (let i = 0; !(await book.remake(3)); i++) expect(i).toBeLessThan(500);
      expect(await book.isProjected()).toBe(true);
      await holds(book, name);
      await book.close();
    }),
    { numRuns: Number(process.env.WIREWAKE_TURNS ?? 60) },
  );
  vi.useRealTimers();
});

it("has no summary of a trip whose only entry, which cannot be read, is said again in another trip", async () => {
  const name = uuid();
  const book = new Book(name);
  const { n: _n, own: _own, ...draft } = touch(trips[1] as string, 2000);
  const odd = held({ ...touch(trips[0] as string, 1000), kind: "toString" });
  await book.adopt([odd], "x");
  await book.append([draft], { replaced: [{ entry: odd.id, by: draft.id }] });
  await holds(book, name);
  expect((await book.summaries()).map(({ trip }) => trip)).toEqual([trips[1]]);
});

/** As an app wrote it that kept summaries only. */
async function olderLog(name: string, entries: Stored[]): Promise<void> {
  const old = await openDB(name, 6, {
    upgrade(db) {
      const store = db.createObjectStore("entries", { keyPath: "id" });
      for (const path of ["trip", "record", "kind", "no", "out"]) store.createIndex(path, path);
      store.createIndex("outOfTrip", ["trip", "out"]);
      store.createIndex("refused", "refused.code");
      store.createIndex("kept", "kept.code");
      db.createObjectStore("trips", { keyPath: "trip" });
      for (const path of ["photos", "thumbs", "shipments"]) db.createObjectStore(path, { keyPath: "sha256" });
      db.createObjectStore("meta");
    },
  });
  const tx = old.transaction(["entries", "trips"], "readwrite");
  for (const entry of entries) await tx.objectStore("entries").put(entry);
  for (const trip of new Set(entries.map((entry) => entry.trip)))
    await tx.objectStore("trips").put(summarise(entries.filter((entry) => entry.trip === trip)));
  await tx.done;
  old.close();
}

const touch = (trip: string, at: number): Stored => ({
  ...{ id: uuid(), record: uuid(), kind: "touch", trip, prev: [], set: { text: `at ${at}` } },
  ...{ at, n: 1, own: true },
});

it("is made of what an older app wrote, a part at a time, while notes go on being written", async () => {
  const name = uuid();
  // Trips that are gone through at once, and one that is too long for that.
  const all = trips.flatMap((trip, k) =>
    Array.from({ length: k === 1 ? 450 : 90 }, (_, i) => touch(trip, 1000 + i)),
  );
  await olderLog(name, all);
  const book = new Book(name);
  book.words = wordsOf("1");
  expect(await book.summaries()).toHaveLength(3);
  // Not a part of them is taken for all.
  expect(await book.latest(["touch"], { count: 5 })).toBeUndefined();
  let parts = 0;
  for (; !(await book.remake(40)); parts++) {
    const { n: _n, own: _own, ...draft } = touch(trips[parts % 3] as string, 5000 + parts);
    await book.append([draft]);
    await holds(book, name);
    expect(await book.isProjected()).toBe(false);
    // The page is closed now and then, and goes on where it was.
    if (parts % 2 === 0) await book.close();
  }
  expect(parts).toBeGreaterThan(6);
  expect(await book.isProjected()).toBe(true);
  await holds(book, name);
  const found = await book.latest(["touch"], { count: 5 });
  expect(found?.more).toBe(true);
  expect(found?.lines.map(({ back }) => -(back ?? 0))).toEqual([1, 2, 3, 4, 5].map((i) => 5000 + parts - i));
  // No page has more than so many records, so that a note costs no more in a long trip.
  const { pages } = await kept(name);
  for (const page of pages) expect(page.lines.split("\n").length).toBeLessThanOrEqual(65);
});

it("has all the words of a trip for whoever asks while they are read, and reads them again where that failed", async () => {
  const book = new Book(uuid());
  book.words = wordsOf("1");
  const { n: _n, own: _own, ...draft } = touch(trips[0] as string, 1000);
  await book.append([draft]);
  book.forgetWords();
  vi.spyOn(IDBObjectStore.prototype, "getAll").mockImplementationOnce(() => {
    throw new DOMException("gone", "UnknownError");
  });
  await expect(book.wordsOf([draft.trip])).rejects.toThrow("gone");
  vi.restoreAllMocks();
  const [one, other] = await Promise.all([book.wordsOf([draft.trip]), book.wordsOf([draft.trip])]);
  expect(one).toHaveLength(1);
  expect(other).toEqual(one);
});
