/**
 * An entry of the log: one statement about one record, never changed once it is written. What a record is
 * now is the fold of its entries (fold.ts).
 */
import { isUuid } from "./uuid";

/** Fields and their values: numbers in SI, texts, yes or no, nothing, or lists and records of these. */
export type Fields = { [field: string]: unknown };

export interface Entry {
  /** UUID of version 7. */
  id: string;
  /** What it is about; the first entry of a record makes it. A trip's own record has the trip's id. */
  record: string;
  kind: string;
  trip: string;
  /** The entry of this record that the writer had seen last; null for the first. */
  prev: string | null;
  /** What is so from now on; or the record is struck through, and stays legible. */
  set?: Fields;
  strike?: true;
  /** The writing phone's clock, ms since 1970. For reading only: no clock decides anything. */
  at: number;
  /** Counts the entries of the writing phone from 1, without gaps. */
  n: number;
}

/** An entry as the server sends it: with its place in the whole log, and who wrote it. */
export interface Numbered extends Entry {
  no: number;
  /** The writing phone, and what it was called at the time. */
  by: string;
  byName: string;
}

/** What a phone is about to write. */
export type Draft = Omit<Entry, "n">;

export interface Refusal {
  code: string;
  why: string;
}

/** An entry as this phone has it. */
export interface Stored extends Entry {
  /** The server's number and writer; absent until it has one. */
  no?: number;
  by?: string;
  byName?: string;
  /** Its number before the server was restored from a backup; keeps its place until it has one again. */
  earlier?: number;
  /** This phone wrote it, or has taken it on itself to send it. */
  own?: true;
  /** To be sent: its n. Only then is it in the outbox. */
  out?: number;
  /** Why the server did not take it. */
  refused?: Refusal;
  /** The entry that says again what was refused here. */
  replaced?: string;
}

/** The most an entry may be, as JSON in bytes, here and on the server. */
export const mostBytes = 16 * 1024;

/** What is wrong with it, for whoever wrote it; undefined: it is an entry. */
export function faultOf(raw: unknown): string | undefined {
  if (typeof raw !== "object" || raw === null) return "is not a record";
  const e = raw as Partial<Entry>;
  if (!isUuid(e.id)) return "id is not a UUID";
  if (!isUuid(e.record)) return "record is not a UUID";
  if (!isUuid(e.trip)) return "trip is not a UUID";
  if (e.prev !== null && !isUuid(e.prev)) return "prev is neither null nor a UUID";
  if (typeof e.kind !== "string" || !/^[A-Za-z][A-Za-z0-9-]{0,39}$/.test(e.kind)) return "kind is not a word";
  if (!isCount(e.at, 0)) return "at is not a time";
  if (!isCount(e.n, 1)) return "n is not a count from 1";
  if ((e.set === undefined) === (e.strike === undefined)) return "has not exactly one of set and strike";
  if (e.strike !== undefined && e.strike !== true) return "strike is not true";
  if (e.set !== undefined && (typeof e.set !== "object" || e.set === null || Array.isArray(e.set)))
    return "set is not a record of fields";
  if (bytesOf(plain(e as Entry)) > mostBytes) return "is too large";
  return undefined;
}

export const isCount = (raw: unknown, least: number): raw is number =>
  Number.isSafeInteger(raw) && (raw as number) >= least;

/** Only what belongs to an entry, in one order: what is sent and compared. */
export const plain = ({ id, record, kind, trip, prev, set, strike, at, n }: Entry): Entry => ({
  id,
  record,
  kind,
  trip,
  prev,
  ...(strike ? { strike } : { set: set ?? {} }),
  at,
  n,
});

export const bytesOf = (value: unknown): number => new TextEncoder().encode(JSON.stringify(value)).length;

/** Whether two entries say the same, whatever the order of their fields and the count of their phone. */
export const sameStatement = (one: Entry, other: Entry): boolean =>
  canonical({ ...plain(one), n: 0 }) === canonical({ ...plain(other), n: 0 });

const canonical = (value: unknown): string =>
  JSON.stringify(value, (_, v) =>
    typeof v === "object" && v !== null && !Array.isArray(v)
      ? Object.fromEntries(Object.entries(v).sort(([a], [b]) => (a < b ? -1 : 1)))
      : v,
  );
