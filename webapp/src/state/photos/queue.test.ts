import "fake-indexeddb/auto";
import { openDB } from "idb";
import { describe, expect, it } from "vitest";
import type { Draft } from "../entry/entry";
import { uuid } from "../entry/uuid";
import { Book } from "../log/disk/book";
import type { You } from "../log/disk/db";
import { Queue } from "./queue";

const trip = uuid();
const hash = (n: number) => n.toString(16).padStart(64, "0");
const picture = (sha256: string) => ({ sha256, type: "image/jpeg", bytes: new ArrayBuffer(8) });

async function take(book: Book, sha256: string, of = trip): Promise<void> {
  const id = uuid();
  const draft: Draft = { id, record: id, kind: "photo", trip: of, prev: [], set: { sha256 }, at: 1 };
  await book.append([draft], { photos: [{ full: picture(sha256), thumb: picture(sha256) }] });
}

/** A phone with photos 1 to n, and a server that answers as it is told. */
async function begin(n: number) {
  const book = new Book(uuid());
  for (let i = 1; i <= n; i++) await take(book, hash(i));
  const luck = new Map<string, Response | "lost">();
  const asked: number[] = [];
  const there = new Set<string>();
  const at = { now: 0 };
  const queue = new Queue(
    book,
    async (sha256) => {
      asked.push(Number.parseInt(sha256, 16));
      const answer = luck.get(sha256);
      if (answer === "lost") throw new TypeError("failed to fetch");
      if (answer) return answer.clone();
      there.add(sha256);
      return Response.json({ have: 8 }, { status: 201 });
    },
    async () => undefined,
    () => at.now,
  );
  const open = async () =>
    (await book.standing()).photos
      .map(({ sha256, why }) => [Number.parseInt(sha256, 16), why])
      .sort(([a], [b]) => Number(a) - Number(b));
  const says = (code: string, status = 503) => Response.json({ code, text: "" }, { status });
  return { book, queue, luck, asked, there, at, open, says };
}

describe("photos on their way to the server", () => {
  it("are open until the server has them whole", async () => {
    const { queue, open, asked } = await begin(3);
    expect(await open()).toEqual([
      [1, undefined],
      [2, undefined],
      [3, undefined],
    ]);
    await queue.send([]);
    expect(await open()).toEqual([]);
    asked.length = 0;
    await queue.send([]);
    expect(asked).toEqual([]);
  });

  it("pass one that fails, which says why, and is tried again later and later", async () => {
    const { queue, luck, asked, at, open, says, there } = await begin(4);
    luck.set(hash(2), says("store"));
    await queue.send([]);
    expect(there.size).toBe(3);
    expect(await open()).toEqual([[2, "store"]]);
    asked.length = 0;
    for (const now of [59_000, 61_000, 120_000, 182_000]) {
      at.now = now;
      await queue.send([]);
    }
    expect(asked).toEqual([2, 2]);
    queue.hurry();
    luck.delete(hash(2));
    await queue.send([]);
    expect(await open()).toEqual([]);
  });

  it.each(["enough", "size", "type"])("let “%s” rest for a day", async (code) => {
    const { queue, luck, asked, at, open, says } = await begin(1);
    luck.set(hash(1), says(code, 409));
    await queue.send([]);
    at.now = 23 * 3600_000;
    await queue.send([]);
    expect(asked).toEqual([1]);
    expect(await open()).toEqual([[1, code]]);
    at.now = 25 * 3600_000;
    await queue.send([]);
    expect(asked).toEqual([1, 1]);
  });

  it.each(["full", "aboard"])("end with “%s”, which is the same for all", async (code) => {
    const { queue, luck, asked, open, says } = await begin(3);
    for (let i = 1; i <= 3; i++) luck.set(hash(i), says(code));
    await queue.send([]);
    expect(asked).toHaveLength(1);
    expect(await open()).toHaveLength(3);
  });

  it("are tried at once when the server is back in reach, but for what it does not take", async () => {
    const { queue, luck, asked, says, open } = await begin(3);
    luck.set(hash(1), says("store"));
    luck.set(hash(2), says("enough", 409));
    luck.set(hash(3), "lost");
    expect(await queue.send([])).toBe(true);
    luck.clear();
    asked.length = 0;
    queue.back();
    expect(await queue.send([])).toBe(false);
    expect(asked.sort()).toEqual([1, 3]);
    expect(await open()).toEqual([[2, "enough"]]);
  });

  it("offered before its note was there, one goes as soon as the server asks for it", async () => {
    const { queue, luck, asked, open, says } = await begin(2);
    luck.set(hash(1), says("nothing", 404));
    luck.set(hash(2), says("store"));
    await queue.send([]);
    expect(await open()).toEqual([
      [1, "nothing"],
      [2, "store"],
    ]);
    luck.clear();
    asked.length = 0;
    // Nothing else is hurried by it.
    await queue.send([hash(1), hash(2)]);
    expect(asked).toEqual([1]);
    expect(await open()).toEqual([[2, "store"]]);
  });

  it("pass one at which the line breaks, and end when it breaks twice in a row", async () => {
    const { queue, luck, asked, there } = await begin(6);
    luck.set(hash(1), "lost");
    await queue.send([]);
    expect(there.size).toBe(5);
    for (let i = 1; i <= 6; i++) luck.set(hash(i), "lost");
    asked.length = 0;
    await queue.send([1, 2, 3].map(hash));
    expect(asked).toHaveLength(2);
  });

  it("go again when the server asks for them, and those fetched from it, too", async () => {
    const { book, queue, asked, open } = await begin(1);
    await queue.send([]);
    await book.keepPhoto(picture(hash(9)), picture(hash(9)));
    asked.length = 0;
    await queue.send([hash(1), hash(9), hash(77)]);
    expect(asked.sort()).toEqual([1, 9]);
    expect(await open()).toEqual([]);
  });

  it("are all open again at another server, and of a guest only those of the trip", async () => {
    const { book, queue, open } = await begin(1);
    await take(book, hash(2), uuid());
    await queue.send([]);
    expect(await open()).toEqual([]);
    const you: You = { device: "d", name: "n", role: "guest", may: [], trip };
    const batch = await book.batch(0, 0);
    await book.take(batch, {
      cursor: { epoch: "other", since: 0, check: "", more: false },
      taken: [],
      refused: [],
      entries: [],
      spoilt: [],
      you,
    });
    expect(await open()).toEqual([[1, undefined]]);
  });

  it("are open, too, if an older app took them", async () => {
    const name = uuid();
    const old = await openDB(name, 2, {
      upgrade(db) {
        const entries = db.createObjectStore("entries", { keyPath: "id" });
        for (const path of ["trip", "no", "out", "kind"]) entries.createIndex(path, path);
        entries.createIndex("outOfTrip", ["trip", "out"]);
        entries.createIndex("refused", "refused.code");
        db.createObjectStore("trips", { keyPath: "trip" });
        for (const store of ["photos", "thumbs"]) db.createObjectStore(store, { keyPath: "sha256" });
        db.createObjectStore("meta");
      },
    });
    const of = (sha256: string, own: boolean) => {
      const id = uuid();
      return {
        id,
        record: id,
        kind: "photo",
        trip,
        prev: [],
        set: { sha256 },
        at: 1,
        n: 1,
        ...(own && { own }),
      };
    };
    await old.put("entries", of(hash(1), true));
    await old.put("entries", of(hash(2), false));
    await old.put("entries", of(hash(3), true));
    for (const n of [1, 2]) await old.put("photos", picture(hash(n)));
    old.close();
    expect((await new Book(name).standing()).photos).toEqual([{ sha256: hash(1), trip, out: 1 }]);
  });
});
