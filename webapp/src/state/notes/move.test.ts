import { theLog } from "../log/saying/started";
import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { beforeEach, expect, it, vi } from "vitest";
import { foldAll } from "../entry/fold";
import { uuid } from "../entry/uuid";

const boats = uuid();

async function start() {
  vi.resetModules();
  const log = await theLog();
  const move = await import("./move");
  await log.loadLog();
  const batch = await log.book.batch(0, 0);
  await log.book.take(batch, {
    cursor: { epoch: "e", since: 1, check: "", more: false },
    taken: [],
    refused: [],
    entries: [
      {
        ...{
          id: uuid(),
          record: boats,
          kind: "trip",
          trip: boats,
          prev: [],
          set: { closed: 5 },
          at: 1,
          n: 1,
        },
        ...{ by: "ann", byName: "Ann", no: 1 },
      },
    ],
    spoilt: [],
    you: { device: "d", name: "Gus", role: "guest", may: [], trip: boats },
  });
  await log.changed();
  return { ...log, ...move };
}
const settled = (log: Awaited<ReturnType<typeof start>>) =>
  vi.waitFor(() => expect(log.isSaved()).toBe(true));

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});

it("says every note anew in the boat's trip, with its time and what it tells of others, and leaves none behind", async () => {
  const log = await start();
  const fish = log.note("mark", { fish: "bluefish" });
  log.note("photo", { of: fish.id, caption: "it" });
  const out = log.note("note", { text: "no" });
  await settled(log);
  await log.show(fish.trip);
  log.amend(fish, { length: 0.7 });
  log.strike(out);
  await settled(log);
  expect(log.standing.value.held).toHaveLength(6);
  const [first] = await log.book.entriesOf(fish.trip);
  const anew = await log.moveNotes(fish.trip, boats);
  expect(log.standing.value).toMatchObject({ held: [], unsent: 3 });
  const records = foldAll((await log.book.entriesOf(boats)).filter(({ own }) => own));
  const find = (id: string) => records.find((one) => one.id === anew.get(id));
  expect(Object.fromEntries([...(find(fish.id)?.fields ?? [])].map(([k, v]) => [k, v.value]))).toEqual({
    fish: "bluefish",
    length: 0.7,
  });
  expect(records.find(({ kind }) => kind === "photo")?.fields.get("of")?.value).toBe(anew.get(fish.id));
  expect(find(out.id)?.struck).toBe(true);
  expect(find(fish.id)?.entries[0]?.at).toBe(fish.entries[0]?.at);
  // What was said before is still there to be read, and the trip is no other one's any more.
  expect(first?.trip).toBe(fish.trip);
  expect((await log.book.entriesOf(fish.trip)).every(({ replaced }) => replaced)).toBe(true);
  expect(log.summaries.value?.map(({ trip }) => trip)).toEqual([boats]);
});

it("a hookup of which nothing is known but that it was is said anew as the contract wants it", async () => {
  const log = await start();
  const bare = log.note("mark", {});
  await settled(log);
  const anew = await log.moveNotes(bare.trip, boats);
  const said = (await log.book.entriesOf(boats)).find(({ record }) => record === anew.get(bare.id));
  expect(said?.set).toEqual({ struck: false });
});

it("a trip in which nothing was noted is put away, and what others wrote stays theirs", async () => {
  const log = await start();
  const empty = log.startTrip({});
  await settled(log);
  await log.moveNotes(empty, boats);
  expect(log.standing.value).toMatchObject({ held: [], unsent: 0 });
  const theirs = uuid();
  const filed = {
    id: uuid(),
    record: uuid(),
    kind: "note",
    trip: theirs,
    prev: [],
    set: { text: "x" },
    at: 1,
    n: 1,
  };
  await log.book.adopt([{ ...filed, by: uuid(), byName: "Ben" }], "somebody");
  await log.changed();
  await log.moveNotes(theirs, boats);
  expect(log.standing.value.held).toMatchObject([{ byName: "Ben" }]);
});

it("what the boat had of a trip before it was parted is not said again, but for what was added to it", async () => {
  const log = await start();
  const parted = uuid();
  const you = { device: "d", name: "Gus", role: "guest", may: [], trip: boats };
  const answer = { refused: [], entries: [], spoilt: [] };
  const say = { trip: parted, kind: "note", prev: [], at: 1 };
  const [there, added] = [uuid(), uuid()];
  const first = { ...say, id: uuid(), record: there, set: { text: "there" } };
  const second = { ...say, id: uuid(), record: added, set: { text: "there too" } };
  await log.book.append([first, second]);
  await log.book.take(await log.book.batch(9, 9999), {
    ...answer,
    cursor: { epoch: "e.0.two", since: 3, check: "", more: false },
    taken: [first, second].map(({ id }, at) => ({ id, no: at + 2 })),
    you: { ...you, trips: [boats, parted] },
  });
  await log.book.append([{ ...second, id: uuid(), prev: [second.id], set: { text: "more" } }]);
  await log.book.take(await log.book.batch(0, 0), {
    ...answer,
    cursor: { epoch: "e.0.one", since: 3, check: "", more: false },
    taken: [],
    you,
  });
  await log.moveNotes(parted, boats);
  const moved = (await log.book.entriesOf(boats)).filter(({ own }) => own);
  expect(moved.map(({ set }) => set)).toEqual([{ text: "more" }]);
  // Should the trips be made one again, both are sent as they were.
  const left = (await log.book.entriesOf(parted)).filter(({ out }) => out);
  expect(left.map(({ id }) => id).sort()).toEqual([first.id, second.id].sort());
  expect(log.standing.value.held).toEqual([]);
});

it("only a phone that may see one trip has one of the boat's to bring its notes into", async () => {
  const { boatsTrip, you } = await start();
  const who = { device: "d", name: "n", role: "any" };
  expect(boatsTrip()).toBe(boats);
  for (const other of [undefined, { ...who, may: [] }, { ...who, may: ["trips" as const], trip: boats }]) {
    you.value = other;
    expect(boatsTrip()).toBeUndefined();
  }
});
