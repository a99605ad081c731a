/**
 * The log on this phone's disk. Every change is one transaction with strict durability, summaries of the
 * trips included, and has happened only when its promise is kept.
 */
import type { IDBPTransaction, StoreNames } from "idb";
import type { Connection } from "../store/connection";
import {
  type Cursor,
  type LogSchema,
  logDatabase,
  type MetaKey,
  type MetaOf,
  type Photo,
  type You,
} from "./db";
import { bytesOf, type Draft, type Numbered, plain, type Refusal, type Stored, sameStatement } from "./entry";
import { inOrder } from "./fold";
import { type Summary, summarise } from "./summary";
import { uuid } from "./uuid";

const stores: StoreNames<LogSchema>[] = ["entries", "trips", "photos", "thumbs", "meta"];
type Write = IDBPTransaction<LogSchema, typeof stores, "readwrite">;

/** What else a new entry brings about, in the same transaction. */
export interface Along {
  photos?: { full: Photo; thumb: Photo }[];
  /** Refused entries that another one says again. */
  replaced?: { entry: string; by: string }[];
}

/** A part of the outbox, and the cursor it goes with. */
export interface Batch {
  cursor: Cursor;
  entries: Stored[];
}

/** What the server answered to a batch; checked before it comes here. */
export interface Outcome {
  epoch: string;
  taken: { id: string; no: number }[];
  refused: ({ id: string } & Refusal)[];
  entries: Numbered[];
  upto: number;
  you: You;
}

/** Some of the outbox that the server has not taken. */
export interface Standing {
  unsent: number;
  refused: Stored[];
}

const nothingYet: Cursor = { epoch: "", since: 0 };

/** The server's word for a count that another entry of this phone has already. */
export const countTaken = "n-reused";

export class Book {
  private readonly database: Connection<LogSchema>;

  constructor(name = "wirewake-log") {
    this.database = logDatabase(name);
  }

  /** Writes new entries, each with its count; those already there are left as they are. */
  append(drafts: Draft[], { photos = [], replaced = [] }: Along = {}): Promise<void> {
    return this.write(async (tx) => {
      let n = await countOf(tx);
      const fresh: Stored[] = [];
      for (const draft of drafts) {
        if (await tx.objectStore("entries").get(draft.id)) continue;
        n++;
        fresh.push({ ...draft, n, own: true, out: n });
      }
      for (const { full, thumb } of photos) await putPhoto(tx, full, thumb);
      for (const { entry, by } of replaced) {
        const old = await tx.objectStore("entries").get(entry);
        if (old) fresh.push(without({ ...old, replaced: by }, "refused", "out"));
      }
      await tx.objectStore("meta").put(n, "n");
      await enter(tx, fresh);
    });
  }

  /**
   * Takes over entries from a file; those already there are left as they are. What no server has numbered
   * is sent by this phone, under its own count.
   */
  adopt(entries: (Draft & Partial<Numbered>)[]): Promise<number> {
    return this.write(async (tx) => {
      let n = await countOf(tx);
      const fresh: Stored[] = [];
      for (const entry of entries) {
        if (await tx.objectStore("entries").get(entry.id)) continue;
        const { no, by, byName } = entry;
        const statement = plain({ ...entry, n: entry.n ?? 1 });
        if (no !== undefined && by !== undefined && byName !== undefined)
          fresh.push({ ...statement, earlier: no, by, byName });
        else {
          n++;
          fresh.push({ ...statement, n, own: true, out: n });
        }
      }
      await tx.objectStore("meta").put(n, "n");
      await enter(tx, fresh);
      return fresh.length;
    });
  }

  summaries(): Promise<Summary[]> {
    return this.database.using((db) => db.getAll("trips"));
  }

  entriesOf(trip: string): Promise<Stored[]> {
    return this.database.using((db) => db.getAllFromIndex("entries", "trip", trip));
  }

  /** What has not reached the server; for a guest only what belongs to the guest's trip. */
  standing(): Promise<Standing> {
    return this.database.using(async (db) => {
      const tx = db.transaction(["entries", "meta"]);
      const only = guestTrip(await tx.objectStore("meta").get("you"));
      const entries = tx.objectStore("entries");
      const [unsent, refused] = await Promise.all([
        only ? entries.index("outOfTrip").count(ofTrip(only)) : entries.index("out").count(),
        entries.index("refused").getAll(),
      ]);
      return { unsent, refused: refused.filter((entry) => !only || entry.trip === only) };
    });
  }

  /** Settles a refused entry: undefined keeps it on this phone only, a refusal puts it back as it was. */
  settle(id: string, refused: Refusal | undefined): Promise<void> {
    return this.write(async (tx) => {
      const entry = await tx.objectStore("entries").get(id);
      if (entry) await enter(tx, [refused ? { ...entry, refused } : without(entry, "refused")]);
    });
  }

  /** Everything that no server has numbered, of all trips. */
  unnumbered(): Promise<Stored[]> {
    return this.database.using(async (db) => {
      const tx = db.transaction("entries");
      const [out, refused] = await Promise.all([
        tx.store.index("out").getAll(),
        tx.store.index("refused").getAll(),
      ]);
      return inOrder([...out, ...refused]);
    });
  }

  /** The next of the outbox: at most so many entries, and so many bytes of JSON. */
  batch(most: number, mostBytes: number): Promise<Batch> {
    return this.database.using(async (db) => {
      const tx = db.transaction(["entries", "meta"]);
      const [you, cursor] = await Promise.all([
        tx.objectStore("meta").get("you") as Promise<You | undefined>,
        tx.objectStore("meta").get("cursor") as Promise<Cursor | undefined>,
      ]);
      const only = guestTrip(you);
      const entries = tx.objectStore("entries");
      const found = only
        ? await entries.index("outOfTrip").getAll(ofTrip(only), most)
        : await entries.index("out").getAll(null, most);
      let bytes = 0;
      const fitting = found.filter((entry) => {
        bytes += bytesOf(plain(entry)) + 1;
        return bytes <= mostBytes;
      });
      return { cursor: cursor ?? nothingYet, entries: fitting };
    });
  }

  /**
   * Takes in what the server answered to a batch: numbers, refusals, what others wrote, and the cursor. False:
   * the cursor has moved since the batch was read, so the answer is out of date, and nothing is done.
   */
  take(sent: Batch, answer: Outcome): Promise<boolean> {
    return this.write(async (tx) => {
      const meta = tx.objectStore("meta");
      const entries = tx.objectStore("entries");
      const cursor = ((await meta.get("cursor")) as Cursor | undefined) ?? nothingYet;
      if (cursor.epoch !== sent.cursor.epoch || cursor.since !== sent.cursor.since) return false;
      const changed = new Map<string, Stored>();
      const get = async (id: string) => changed.get(id) ?? (await entries.get(id));
      const put = (entry: Stored) => changed.set(entry.id, entry);
      let n = await countOf(tx);

      if (cursor.epoch !== answer.epoch) {
        for (const entry of await entries.getAll()) {
          if (entry.no !== undefined) put(unnumber(entry));
        }
      }
      for (const { id, no } of answer.taken) {
        const entry = await get(id);
        if (entry) put(number(entry, no, answer.you.device, answer.you.name));
      }
      for (const { id, code, why } of answer.refused) {
        const entry = await get(id);
        if (!entry || entry.no !== undefined) continue;
        if (code === countTaken) {
          n++;
          put({ ...entry, n, out: n });
        } else put(without({ ...entry, refused: { code, why } }, "out"));
      }
      for (const numbered of answer.entries) {
        const { no, by, byName } = numbered;
        const own = by === answer.you.device;
        if (own) n = Math.max(n, numbered.n);
        const had = await get(numbered.id);
        if (had && sameStatement(had, numbered)) {
          put(number({ ...had, n: numbered.n }, no, by, byName));
          continue;
        }
        put({ ...plain(numbered), no, by, byName, ...(own && { own }) });
        // Something else under the same id was never taken: it stays, under an id of its own.
        if (had?.own) put(without({ ...had, id: uuid(), refused: clash }, "out", "no"));
      }

      await meta.put(n, "n");
      await meta.put({ epoch: answer.epoch, since: answer.upto }, "cursor");
      await meta.put(answer.you, "you");
      await enter(tx, [...changed.values()]);
      return true;
    });
  }

  async meta<K extends MetaKey>(key: K): Promise<MetaOf<K> | undefined> {
    return (await this.database.using((db) => db.get("meta", key))) as MetaOf<K> | undefined;
  }

  setMeta<K extends "you" | "current">(key: K, value: MetaOf<K> | undefined): Promise<void> {
    return this.write(async (tx) => {
      if (value === undefined) await tx.objectStore("meta").delete(key);
      else await tx.objectStore("meta").put(value, key);
    });
  }

  photo(sha256: string): Promise<Photo | undefined> {
    return this.database.using((db) => db.get("photos", sha256));
  }

  thumb(sha256: string): Promise<Photo | undefined> {
    return this.database.using((db) => db.get("thumbs", sha256));
  }

  /** Keeps a photo that came from the server. */
  keepPhoto(full: Photo, thumb: Photo): Promise<void> {
    return this.write((tx) => putPhoto(tx, full, thumb));
  }

  /** Closes the connection, as the browser may do at any time. */
  close(): Promise<void> {
    return this.database.close();
  }

  private write<T>(work: (tx: Write) => Promise<T>): Promise<T> {
    return this.database.using(async (db) => {
      const tx = db.transaction(stores, "readwrite", { durability: "strict" });
      // A failure in the middle takes back all of it.
      const [result] = await Promise.all([
        work(tx).catch((fault) => {
          try {
            tx.abort();
          } catch {
            // The browser has done so itself.
          }
          throw fault;
        }),
        tx.done,
      ]);
      return result;
    });
  }
}

const clash: Refusal = { code: "clash", why: "" };

const guestTrip = (you: MetaOf<MetaKey> | undefined): string | undefined => {
  const known = you as You | undefined;
  return known?.role === "guest" ? known.trip : undefined;
};

const ofTrip = (trip: string) => IDBKeyRange.bound([trip, 0], [trip, Number.POSITIVE_INFINITY]);

async function countOf(tx: Write): Promise<number> {
  return ((await tx.objectStore("meta").get("n")) as number | undefined) ?? 0;
}

/** Puts entries, and makes the summaries of their trips true. */
async function enter(tx: Write, changed: Stored[]): Promise<void> {
  const entries = tx.objectStore("entries");
  await Promise.all(changed.map((entry) => entries.put(entry)));
  for (const trip of new Set(changed.map((entry) => entry.trip))) {
    await tx.objectStore("trips").put(summarise(await entries.index("trip").getAll(trip)));
  }
}

async function putPhoto(tx: Write, full: Photo, thumb: Photo): Promise<void> {
  await Promise.all([tx.objectStore("photos").put(full), tx.objectStore("thumbs").put(thumb)]);
}

/** Gives an entry its number: nothing is left to send. */
const number = (entry: Stored, no: number, by: string, byName: string): Stored =>
  without({ ...entry, no, by, byName }, "out", "refused", "earlier", "replaced");

/** The server does not know this number any more: what this phone wrote is sent again. */
function unnumber({ no, ...entry }: Stored): Stored {
  return { ...entry, ...(no !== undefined && { earlier: no }), ...(entry.own && { out: entry.n }) };
}

function without<K extends keyof Stored>(entry: Stored, ...fields: K[]): Stored {
  const rest = { ...entry };
  for (const field of fields) delete rest[field];
  return rest;
}
