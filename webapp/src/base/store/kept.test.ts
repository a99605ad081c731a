import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { openDB } from "idb";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { list, number, record, words } from "./shape";
import { slowDisk } from "./slow-disk";

interface Doc {
  knots: number;
  rods: { name: string; feet: number }[];
}

const shape = record<Doc>({ knots: number, rods: list(record({ name: words, feet: number }), 3) });
const usual: Doc = { knots: 3, rods: [] };
const mine: Doc = { knots: 3.5, rods: [{ name: "port", feet: 200 }] };

/** The modules hold the open database; each start of the app is a new set of them. */
async function start() {
  vi.resetModules();
  const { Kept, letGo, storageTroubles } = await import("./kept");
  const aside = await import("./aside");
  const { closeDatabase } = await import("./db");
  const kept = new Kept<Doc>("doc", shape, usual);
  return { kept, letGo, aside, storageTroubles, closeDatabase };
}

async function stored(store: "kept" | "aside") {
  const db = await openDB("wirewake", 1);
  const all = await db.getAll(store);
  db.close();
  return all;
}

async function write(value: unknown) {
  const first = await start();
  first.kept.set(usual);
  await first.kept.settled();
  await first.closeDatabase();
  const db = await openDB("wirewake", 1);
  await db.put("kept", value, "doc");
  db.close();
}

/** The place that keeps at once what is not on disk yet. */
function atOncePlaces(): Map<string, string> {
  const places = new Map<string, string>();
  vi.stubGlobal("localStorage", {
    getItem: (key: string) => places.get(key) ?? null,
    setItem: (key: string, value: string) => places.set(key, value),
    removeItem: (key: string) => places.delete(key),
  });
  return places;
}

/** A start at which the disk has not answered in time. */
async function startUnread() {
  const started = await start();
  const loading = started.kept.load();
  await vi.advanceTimersByTimeAsync(5000);
  expect(await loading).toBe(false);
  expect(started.storageTroubles.value).toEqual([{ kind: "unopened", name: "doc" }]);
  return started;
}

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  // The pages of earlier tests would listen too.
  vi.stubGlobal("BroadcastChannel", undefined);
});

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

describe("what is kept", () => {
  it("is there at the next start", async () => {
    const first = await start();
    expect(await first.kept.load()).toBe(false);
    first.kept.set(mine);
    await first.kept.settled();
    const second = await start();
    expect(await second.kept.load()).toBe(true);
    expect(second.kept.value).toEqual(mine);
  });

  it("can be taken from elsewhere and given back; what cannot be read as a whole changes nothing", async () => {
    const { kept } = await start();
    const { documentsNow, takeDocument } = await import("./kept");
    await kept.load();
    kept.set(mine);
    expect(documentsNow(["doc", "none"])).toEqual({ doc: mine });
    const other: Doc = { knots: 2, rods: [] };
    const back = takeDocument("doc", other);
    expect(kept.value).toEqual(other);
    back?.();
    expect(kept.value).toEqual(mine);
    for (const odd of [null, 7, { knots: "fast", rods: [] }, { ...mine, rods: [{ name: 1 }] }])
      expect(takeDocument("doc", odd)).toBeUndefined();
    expect(takeDocument("none", other)).toBeUndefined();
    expect(kept.value).toEqual(mine);
  });

  it("is the newest of many quick changes", async () => {
    const { kept } = await start();
    for (let knots = 0; knots < 50; knots++) kept.set({ ...mine, knots });
    await kept.settled();
    expect(await stored("kept")).toEqual([{ ...mine, knots: 49 }]);
  });

  it("is there at the next start though the page went away before it was on disk", async () => {
    await write(usual);
    const places = atOncePlaces();
    const gone = await start();
    await gone.kept.load();
    const put = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("closing", "AbortError");
    });
    gone.kept.set(mine);
    await gone.kept.settled();
    put.mockRestore();
    const next = await start();
    expect(await next.kept.load()).toBe(true);
    expect(next.kept.value).toEqual(mine);
    await next.kept.settled();
    expect(await stored("kept")).toEqual([mine]);
    expect(places.size).toBe(0);

    // What another version of the app left there is nothing to go by.
    places.set("wirewake-unwritten-kept-doc", JSON.stringify({ knots: "many", rods: [] }));
    const other = await start();
    expect(await other.kept.load()).toBe(true);
    expect(other.kept.value).toEqual(mine);
    expect(places.size).toBe(0);
  });

  it("is written with strict durability", async () => {
    const { kept } = await start();
    await kept.load();
    const asked = vi.spyOn(IDBDatabase.prototype, "transaction");
    kept.set(mine);
    await kept.settled();
    expect(asked).toHaveBeenCalledWith("kept", "readwrite", { durability: "strict" });
  });

  it("is put aside, and let go of, with strict durability", async () => {
    const { addAside, dropAside, fetchAside } = await import("./db");
    await addAside({ name: "old", why: "w", raw: 1 });
    const asked = vi.spyOn(IDBDatabase.prototype, "transaction");
    await addAside({ name: "older", why: "w", raw: 2 });
    await dropAside([...(await fetchAside()).keys()]);
    const writing = asked.mock.calls.filter(([, mode]) => mode === "readwrite");
    expect(writing.map(([store, , options]) => [store, options])).toEqual([
      ["aside", { durability: "strict" }],
      ["aside", { durability: "strict" }],
    ]);
    expect((await fetchAside()).size).toBe(0);
  });

  it("shows in another page that has the app open too", async () => {
    vi.unstubAllGlobals();
    const [one, other] = [await start(), await start()];
    await other.kept.load();
    one.kept.set(mine);
    await vi.waitFor(() => expect(other.kept.value).toEqual(mine));
  });

  it("shows what another page wrote while this one was reading what it had written before", async () => {
    vi.unstubAllGlobals();
    const one = await start();
    let came = () => {};
    let held: Promise<void> | undefined;
    vi.doMock("./db", async (real) => {
      const db = await real<typeof import("./db")>();
      const fetchKept = async (name: string) => {
        const raw = await db.fetchKept(name);
        await held;
        return raw;
      };
      return { ...db, fetchKept };
    });
    const other = await start();
    vi.doUnmock("./db");
    await other.kept.load();
    const told = new BroadcastChannel("wirewake doc");
    const heard = () =>
      new Promise((done) => {
        told.onmessage = done;
      });
    held = new Promise((done) => {
      came = done;
    });
    for (const knots of [4, 5]) {
      const next = heard();
      one.kept.set({ ...mine, knots });
      await one.kept.settled();
      await next;
    }
    told.close();
    came();
    await vi.waitFor(() => expect(other.kept.value.knots).toBe(5));
  });

  it("is not forgotten when it changes just as a write ends", async () => {
    const { kept } = await start();
    kept.set(usual);
    for (let turns = 0; turns < 400; turns++) {
      kept.set({ ...mine, knots: turns });
      for (let i = 0; i < turns % 20; i++) await null;
      if (turns % 7 === 0) await kept.settled();
    }
    await kept.settled();
    expect(await stored("kept")).toEqual([{ ...mine, knots: 399 }]);
  });

  it("survives the browser closing the connection", async () => {
    const { kept, closeDatabase, storageTroubles } = await start();
    await kept.load();
    await closeDatabase();
    kept.set(mine);
    await kept.settled();
    expect(await stored("kept")).toEqual([mine]);
    expect(storageTroubles.value).toEqual([]);
  });
});

describe("stored data that cannot be read", () => {
  it.each([
    ["nonsense", "nonsense"],
    ["a missing field", { knots: 3 }],
    ["no number", { knots: Number.NaN, rods: [] }],
    ["a number beyond all", { knots: Number.POSITIVE_INFINITY, rods: [] }],
    ["nothing", null],
    ["a list", [1, 2]],
  ])("%s is kept aside, and the usual values stand in", async (_, raw) => {
    await write(raw);
    const { kept, storageTroubles } = await start();
    expect(await kept.load()).toBe(false);
    expect(kept.value).toEqual(usual);
    expect(storageTroubles.value).toEqual([{ kind: "unreadable", name: "doc" }]);
    expect((await stored("aside")).map((a) => a.raw)).toEqual([structuredClone(raw)]);
  });

  it("in one item does not take the others with it", async () => {
    const good = { name: "port", feet: 200 };
    const bad = { name: "starboard", feet: "many" };
    await write({ knots: 3, rods: [good, bad, good, good, good] });
    const { kept, storageTroubles } = await start();
    expect(await kept.load()).toBe(true);
    expect(kept.value.rods).toEqual([good, good]);
    expect(storageTroubles.value).toHaveLength(1);
    expect((await stored("aside"))[0].raw).toEqual([bad, good, good]);
  });

  it("brings nothing along that was not asked for", async () => {
    await write({ ...mine, toString: "x", extra: { deep: true } });
    const { kept } = await start();
    await kept.load();
    expect(Object.keys(kept.value)).toEqual(["knots", "rods"]);
  });
});

describe("what was put aside", () => {
  const spoilt = { knots: Number.NaN, rods: "many" };

  it("is put aside once, however often it is found", async () => {
    await write(spoilt);
    for (let starts = 0; starts < 3; starts++) await (await start()).kept.load();
    expect(await stored("aside")).toHaveLength(1);
  });

  it("is known at later starts, when nobody tells of it any more", async () => {
    await write(spoilt);
    const first = await start();
    await first.kept.load();
    first.kept.set(mine);
    await first.kept.settled();
    const { kept, aside, storageTroubles } = await start();
    await kept.load();
    expect(storageTroubles.value).toEqual([]);
    await aside.findAside();
    expect(aside.namesAside()).toEqual(["doc"]);
  });

  it("makes a file with all of it, numbers included that JSON has no way to write", async () => {
    await write(spoilt);
    const { kept, aside } = await start();
    await kept.load();
    const file = JSON.parse(aside.asideFile(["doc"], 1234));
    expect(file).toMatchObject({ format: "wirewake-aside", version: 1, saved: 1234 });
    expect(file.aside).toEqual([
      { name: "doc", why: expect.any(String), raw: { knots: "NaN", rods: "many" } },
    ]);
    expect(JSON.parse(aside.asideFile(["other"], 1234)).aside).toEqual([]);
  });

  it("is let go of for good, and not found again at the next start", async () => {
    await write(spoilt);
    const { kept, letGo, aside, storageTroubles } = await start();
    await kept.load();
    await letGo("doc");
    expect(storageTroubles.value).toEqual([]);
    expect(aside.namesAside()).toEqual([]);
    expect(await stored("aside")).toEqual([]);
    const next = await start();
    expect(await next.kept.load()).toBe(true);
    expect(next.storageTroubles.value).toEqual([]);
  });

  it("comes back when that is taken back, and is told of again", async () => {
    await write(spoilt);
    const { kept, letGo, aside, storageTroubles } = await start();
    await kept.load();
    const back = await letGo("doc");
    await back();
    expect(aside.namesAside()).toEqual(["doc"]);
    expect((await stored("aside")).map((a) => a.raw)).toEqual([spoilt]);
    expect(storageTroubles.value).toEqual([{ kind: "unreadable", name: "doc" }]);
  });

  it("of one document stays when another's is let go of", async () => {
    await write(spoilt);
    const { kept, letGo, aside } = await start();
    await kept.load();
    await aside.putAside({ name: "other", why: "torn", raw: 1 });
    await letGo("doc");
    expect(aside.namesAside()).toEqual(["other"]);
  });
});

describe("storage that fails", () => {
  it("when full: tells it, keeps the change on screen, and writes it once there is room", async () => {
    const { kept, storageTroubles } = await start();
    await kept.load();
    const put = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    kept.set(mine);
    await kept.settled();
    expect(kept.value).toEqual(mine);
    expect(storageTroubles.value).toEqual([{ kind: "unsaved", name: "doc", full: true }]);
    put.mockRestore();
    await vi.waitFor(async () => expect(await stored("kept")).toEqual([mine]));
    await vi.waitFor(() => expect(storageTroubles.value).toEqual([]));
  });

  it("when it never opens: the app works with what stands in, and tells that nothing is saved", async () => {
    slowDisk();
    const { kept, storageTroubles } = await startUnread();
    expect(kept.value).toEqual(usual);
    kept.fill(mine);
    expect(kept.value).toEqual(mine);
    kept.set({ ...mine, knots: 4 });
    await vi.advanceTimersByTimeAsync(60_000);
    expect(kept.value).toEqual({ ...mine, knots: 4 });
    expect(storageTroubles.value).toEqual([
      { kind: "unopened", name: "doc" },
      { kind: "unsaved", name: "doc", full: false },
    ]);
  });

  it("when it answers late: what is stored takes the place of what the app filled in", async () => {
    await write(mine);
    const answer = slowDisk();
    const { kept, storageTroubles } = await startUnread();
    kept.fill({ ...usual, knots: 9 });
    expect(kept.value.knots).toBe(9);
    expect(kept.found.value).toBe(false);
    answer();
    await vi.waitFor(() => expect(kept.value).toEqual(mine));
    await kept.settled();
    expect(kept.found.value).toBe(true);
    expect(await stored("kept")).toEqual([mine]);
    expect(await stored("aside")).toEqual([]);
    expect(storageTroubles.value).toEqual([]);
  });

  it("when it answers late: what somebody changed meanwhile is kept beside what is stored, and told", async () => {
    await write(mine);
    const places = atOncePlaces();
    const answer = slowDisk();
    const { kept, aside, storageTroubles, letGo } = await startUnread();
    kept.fill(usual);
    const changed = { ...usual, knots: 4 };
    kept.set(changed);
    await vi.advanceTimersByTimeAsync(10_000);
    answer();
    await vi.waitFor(() => expect(kept.value).toEqual(mine));
    await kept.settled();
    expect(await stored("kept")).toEqual([mine]);
    expect(await stored("aside")).toEqual([{ name: "doc", raw: changed, why: aside.tooEarly }]);
    expect(storageTroubles.value).toEqual([{ kind: "early", name: "doc" }]);
    expect(aside.isEarly("doc")).toBe(true);
    expect(places.size).toBe(0);

    // From now on what is shown follows from what was read.
    kept.set({ ...mine, knots: 5 });
    await kept.settled();
    expect(await stored("kept")).toEqual([{ ...mine, knots: 5 }]);
    const back = await letGo("doc");
    expect(storageTroubles.value).toEqual([]);
    await back();
    expect(storageTroubles.value).toEqual([{ kind: "early", name: "doc" }]);
  });

  it("when it answers late and nothing is stored: what was filled in or changed is written", async () => {
    for (const change of ["fill", "set"] as const) {
      globalThis.indexedDB = new IDBFactory();
      const answer = slowDisk();
      const { kept, storageTroubles } = await startUnread();
      kept[change](mine);
      answer();
      await vi.waitFor(async () => expect(await stored("kept")).toEqual([mine]));
      await kept.settled();
      expect(kept.value).toEqual(mine);
      expect(storageTroubles.value).toEqual([]);
    }
  });

  it("when the page goes away before the disk answers: a change is written where nothing is stored, else kept beside", async () => {
    const changed = { ...usual, knots: 4 };
    for (const before of [undefined, mine]) {
      globalThis.indexedDB = new IDBFactory();
      if (before) await write(before);
      const places = atOncePlaces();
      slowDisk();
      (await startUnread()).kept.set(changed);
      vi.useRealTimers();
      vi.restoreAllMocks();
      const { kept, aside, storageTroubles } = await start();
      await kept.load();
      await kept.settled();
      expect(kept.value).toEqual(before ?? changed);
      expect(await stored("kept")).toEqual([before ?? changed]);
      expect((await stored("aside")).map(({ raw, why }) => [raw, why])).toEqual(
        before ? [[changed, aside.tooEarly]] : [],
      );
      expect(storageTroubles.value.map(({ kind }) => kind)).toEqual(before ? ["early"] : []);
      expect(places.size).toBe(0);
    }
  });

  it("when it opens only after errors: what was there comes in, and a change made before is kept aside", async () => {
    await write(mine);
    const { kept, storageTroubles } = await start();
    const open = vi.spyOn(indexedDB, "open").mockImplementation(() => {
      throw new DOMException("not now", "UnknownError");
    });
    expect(await kept.load()).toBe(false);
    const changed = { ...usual, knots: 4 };
    kept.set(changed);
    await kept.settled();
    open.mockRestore();
    await vi.waitFor(() => expect(kept.value).toEqual(mine), 5000);
    await kept.settled();
    expect(await stored("kept")).toEqual([mine]);
    expect((await stored("aside"))[0].raw).toEqual(changed);
    expect(storageTroubles.value).toEqual([{ kind: "early", name: "doc" }]);
  });

  it("never lets a change be written that was made before anything was read", async () => {
    await write(mine);
    const { kept } = await start();
    kept.set(usual);
    await kept.settled();
    expect(await stored("kept")).toEqual([mine]);
    expect(kept.value).toEqual(mine);
    expect((await stored("aside"))[0].raw).toEqual(usual);
  });

  it("never writes over what makes no sense before that is put aside", async () => {
    await write("nonsense");
    const add = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    const { kept, storageTroubles } = await start();
    expect(await kept.load()).toBe(false);
    kept.set(mine);
    await kept.settled();
    expect(await stored("kept")).toEqual(["nonsense"]);
    expect(storageTroubles.value).toContainEqual({ kind: "unsaved", name: "doc", full: true });
    add.mockRestore();
    await vi.waitFor(async () => expect(await stored("kept")).toEqual([mine]), 5000);
    expect((await stored("aside"))[0].raw).toBe("nonsense");
  });

  it("leaves out of a file of everything what was not read, and not what somebody changed since", async () => {
    slowDisk();
    const { kept } = await startUnread();
    const { documentsNow } = await import("./kept");
    kept.fill(mine);
    expect(documentsNow(["doc"])).toEqual({});
    kept.set(mine);
    expect(documentsNow(["doc"])).toEqual({ doc: mine });
  });

  it("is told of once for all documents that it concerns", async () => {
    vi.resetModules();
    const { noted, tell, troubled, storageTroubles } = await import("./kept");
    for (const name of ["a", "b", "a"]) tell({ kind: "unopened", name });
    tell({ kind: "unreadable", name: "c" });
    expect(troubled("unopened")).toEqual(["b", "a"]);
    noted("unopened");
    expect(storageTroubles.value).toEqual([{ kind: "unreadable", name: "c" }]);
  });
});
