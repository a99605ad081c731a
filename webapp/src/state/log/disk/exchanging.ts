/** The talk with the server, as this disk knows it: what is to be sent next, and what an answer changes. */
import { bytesOf, type Numbered, type Refusal, type Stored, said, same } from "../../entry/entry";
import { uuid } from "../../entry/uuid";
import { type Cursor, firstCursor, logOf, metaIn, type You } from "./db";
import { holding, inOutbox, numbered, ofTrip, unnumber, without, writer } from "./outbox";
import { shipAll } from "./shipping";
import { countOf, guestTrips, type Reading, standingIn } from "./standing";
import type { Enter, Write } from "./writing";

/** A part of the outbox, and the cursor it goes with. */
export interface Batch {
  cursor: Cursor;
  entries: Stored[];
  /** Entries before these that no request has room for. */
  tooLarge?: string[];
  /** How many entries and photos this phone has besides that the server has not. */
  holds: number;
}

/** What the server answered to a batch; checked before it comes here. */
export interface Outcome {
  cursor: Cursor;
  taken: { id: string; no: number }[];
  refused: ({ id: string } & Refusal)[];
  entries: Numbered[];
  /** Numbers of entries that the server has lost. */
  spoilt: number[];
  you: You;
}

/** The next of the outbox: at most so many entries, and so many bytes of JSON. */
export async function batchIn(tx: Reading, most: number, mostBytes: number): Promise<Batch> {
  const cursor = await metaIn(tx, "cursor", firstCursor);
  const all = countOf(await standingIn(tx));
  if (cursor.more || most === 0) return { cursor, entries: [], holds: all };
  const only = guestTrips(await tx.objectStore("meta").get("you"));
  const entries = tx.objectStore("entries");
  const found = only
    ? (await Promise.all(only.map((trip) => entries.index("outOfTrip").getAll(ofTrip(trip), most))))
        .flat()
        .sort(inOutbox)
        .slice(0, most)
    : await entries.index("out").getAll(null, most);
  const sized = found.map((entry) => ({ entry, bytes: bytesOf(entry) }));
  const tooLarge = sized.filter(({ bytes }) => bytes > mostBytes).map(({ entry }) => entry.id);
  let sum = 0;
  const fitting = sized
    .filter(({ bytes }) => bytes <= mostBytes)
    .filter(({ bytes }) => {
      sum += bytes;
      return sum <= mostBytes;
    })
    .map(({ entry }) => entry);
  // Who this phone is to the server now it says itself.
  return {
    cursor,
    ...(tooLarge.length > 0 && { tooLarge }),
    entries: fitting.map((one) => (one.own ? without(one, "by", "byName", "mark") : one)),
    holds: all - fitting.length,
  };
}

const clash: Refusal = { code: "clash", why: "" };

/** See Book.take. */
export async function takeIn(tx: Write, enter: Enter, sent: Batch, answer: Outcome): Promise<boolean> {
  const entries = tx.objectStore("entries");
  const cursor = await metaIn(tx, "cursor", firstCursor);
  if (!same(cursor, sent.cursor)) return false;
  const { you } = answer;
  const changed = new Map<string, Stored>();
  const find = async (id: string) => changed.get(id) ?? (await entries.get(id));
  const put = (entry: Stored) => changed.set(entry.id, entry);
  let n = await metaIn(tx, "n", 0);

  // The answer is the whole truth about the numbers that it covers: one that it does not name is gone.
  const { epoch, since, more } = answer.cursor;
  const after = epoch === cursor.epoch ? cursor.since : -1;
  const covered =
    more && after >= 0 ? IDBKeyRange.bound(after, since, true) : IDBKeyRange.lowerBound(after, true);
  const named = new Set([...answer.taken, ...answer.entries].map(({ id }) => id));
  const gone = await entries.index("no").getAll(covered);
  for (const no of answer.spoilt) gone.push(...(await entries.index("no").getAll(no)));
  const sameLog = logOf(epoch) === logOf(cursor.epoch);
  const only = guestTrips(you);
  const hidden = (trip: string) => only !== undefined && !only.includes(trip);
  for (const entry of gone)
    if (!named.has(entry.id))
      put(
        after < 0 && sameLog && hidden(entry.trip)
          ? { ...unnumber(entry), once: logOf(epoch) }
          : unnumber(entry),
      );
  if (after < 0) await shipAll(tx, (trip) => sameLog && hidden(trip));
  for (const { id, no } of answer.taken) {
    const entry = await find(id);
    // What this log had numbered before is told as it came then: this phone did not bring it.
    if (entry?.once === logOf(epoch) && !entry.own) put(numbered(entry, no));
    else if (entry?.own) put(numbered({ ...entry, by: you.device, byName: you.name }, no));
    else if (entry) {
      const wrote = entry.mark ? {} : { by: you.device };
      put(numbered({ ...entry, ...wrote, via: you.device, viaName: you.name }, no));
    }
  }
  for (const { id, code, why } of answer.refused) {
    const entry = await find(id);
    // Of a trip that this phone has just ceased to see it is held back like all that is noted there.
    if (entry && entry.no === undefined && !hidden(entry.trip))
      put(without({ ...entry, refused: { code, why } }, "out"));
  }
  for (const entry of answer.entries) {
    const had = await find(entry.id);
    // What came under this phone's own credential it wrote; what others brought in its name it may not have.
    const mine = entry.by === you.device && entry.via === undefined;
    const own = mine || (had?.own && same(said(had), said(entry)));
    put(numbered({ ...holding(entry), ...writer(entry), ...(own && { own }) }, entry.no));
    if (mine && !entry.unreadable) n = Math.max(n, entry.n);
    // Something else under the same id was never taken: it stays, under an id of its own.
    if (had?.own && !same(said(had), said(entry)))
      put(without({ ...had, id: uuid(), refused: clash }, "out", "no"));
  }

  const meta = tx.objectStore("meta");
  await meta.put(n, "n");
  await meta.put(answer.cursor, "cursor");
  await meta.put(you, "you");
  await enter([...changed.values()]);
  return true;
}
