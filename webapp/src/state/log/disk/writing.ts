/** What every change of the log is: one transaction over all of it, and what is kept beside its entries made true. */
import type { IDBPTransaction, StoreNames } from "idb";
import { type Stored, same } from "../../entry/entry";
import { byRecord } from "../../entry/fold";
import { type LogSchema, metaIn } from "./db";
import { afterWriting, type Become, type Projected, type Projecting, type Words } from "./projections";
import { type Summary, summarise, wholeOf, withRecord } from "./summary";

export const stores: StoreNames<LogSchema>[] = [
  "entries",
  "trips",
  "records",
  "words",
  "photos",
  "thumbs",
  "shipments",
  "meta",
];

export type Write = IDBPTransaction<LogSchema, typeof stores, "readwrite">;

/** Puts entries in, with what follows from them. */
export type Enter = (changed: Stored[]) => Promise<void>;

/** What is known of a log that an older app wrote. */
export const unprojected: Projected = { form: 0, words: null };

export async function noteProjected(tx: Write, projects: boolean, words: Words | undefined): Promise<void> {
  const now = await metaIn(tx, "projected", unprojected);
  const then = projects ? afterWriting(now, words) : unprojected;
  if (!same(now, then)) await tx.objectStore("meta").put(then, "projected");
}

/**
 * Puts entries, and makes true what is kept beside them of their trips and records, without reading the rest of these. Says
 * whether one that had been of another record or trip has become another.
 */
export async function enterIn(
  tx: Write,
  changed: Stored[],
  summaries: Map<string, Summary>,
  projecting: Projecting | undefined,
): Promise<boolean> {
  const entries = tx.objectStore("entries");
  const trips = tx.objectStore("trips");
  const were = await Promise.all(changed.map(({ id }) => entries.get(id)));
  let moved = changed.some(({ trip, record }, i) => {
    const was = were[i];
    return was && (was.trip !== trip || was.record !== record);
  });
  const records = [...new Set([...changed, ...were].flatMap((entry) => entry?.record ?? []))];
  const before = await Promise.all(records.map((record) => entries.index("record").getAll(record)));
  await Promise.all(changed.map(async (entry) => entries.put(entry)));
  const last = new Map(changed.map((entry) => [entry.id, entry]));
  const put = byRecord([...last.values()]);
  const anew = new Set<string>();
  const become: Become[] = [];
  for (const [i, record] of records.entries()) {
    const was = before[i] ?? [];
    const is = [...was.filter(({ id }) => !last.has(id)), ...(put.get(record) ?? [])];
    for (const trip of new Set([...was, ...is].map((entry) => entry.trip))) {
      const of = (entry: Stored) => entry.trip === trip;
      const now = wholeOf(is.filter(of));
      const known = summaries.get(trip) ?? (await trips.get(trip));
      const next = known && !anew.has(trip) && withRecord(known, wholeOf(was.filter(of)), now);
      if (next) summaries.set(trip, next);
      else anew.add(trip);
      become.push({ trip, record, is: now.folded });
    }
  }
  await projecting?.take(become);
  for (const trip of anew) {
    const all = await entries.index("trip").getAll(trip);
    if (all.some(({ replaced }) => !replaced)) summaries.set(trip, summarise(all));
    else {
      // All of it is told elsewhere.
      summaries.delete(trip);
      await trips.delete(trip);
      moved = true;
    }
  }
  for (const summary of summaries.values()) await trips.put(summary);
  return moved;
}
