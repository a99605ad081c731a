/**
 * An entry of the log: one statement about one record, never changed once it is written. What it may be is
 * told in server/sync/README.md; what a record says now is the fold of its entries (fold.ts).
 */
import { isUuid } from "./uuid";

/** Fields and their values: any JSON; numbers in SI units. */
export type Fields = { [field: string]: unknown };

export interface Entry {
  /** UUID of version 7. */
  id: string;
  /** What it is about. A trip's own record has the trip's id. */
  record: string;
  kind: string;
  trip: string;
  /** The entries of this record that the writer had seen and that are no other's ancestor. */
  prev: string[];
  /** What is so from now on; or the record is struck through, and stays legible. */
  set?: Fields;
  strike?: true;
  /** The writing phone's clock, ms since 1970. For reading only: no clock decides anything. */
  at: number;
  /** Counts the entries of the writing phone from 1, without gaps. */
  n: number;
}

/** Who wrote an entry, what that phone was called at the time, and who brought it, if another one did. */
export interface Writer {
  by: string;
  byName: string;
  via?: string;
  viaName?: string;
}

/** An entry as the server sends it: with its place in the whole log. */
export interface Numbered extends Entry, Writer {
  no: number;
}

/** What a phone is about to write. */
export type Draft = Omit<Entry, "n">;

export interface Refusal {
  code: string;
  why: string;
}

/** An entry as this phone has it. */
export interface Stored extends Entry, Partial<Writer> {
  /** The server's number; absent until it has one. */
  no?: number;
  /** This phone wrote it. */
  own?: true;
  /** Only in the outbox: its place there, by the number it once had and its count. */
  out?: [number, number];
  /** Why the server did not take it. */
  refused?: Refusal;
  /** The entry that says again what was refused here. */
  replaced?: string;
}

/** The most an entry may be, as JSON in bytes, and may follow on. */
export const mostBytes = 16_384;
const mostPrev = 32;

/** What is wrong with it, for whoever wrote it; undefined: it is an entry. */
export function faultOf(raw: unknown): string | undefined {
  if (!isRecord(raw)) return "is not a record";
  const { id, record, kind, trip, prev, set, strike, at, n } = raw;
  for (const [name, one] of Object.entries({ id, record, trip }))
    if (!isUuid(one)) return `has no UUID for ${name}`;
  if (!Array.isArray(prev) || prev.length > mostPrev || !prev.every(isUuid))
    return "has a prev that is no list of UUIDs";
  if (!isName(kind, 32)) return "has no word for kind";
  if ((kind === "trip") !== (record === trip)) return "is not what its trip says of itself";
  if (!isCount(at, 0)) return "has no time for at";
  if (!isCount(n, 1)) return "has no count for n";
  if ((set === undefined) === (strike === undefined)) return "has not exactly one of set and strike";
  if (strike !== undefined && strike !== true) return "has a strike that is not true";
  if (set !== undefined) {
    if (!isRecord(set) || Object.keys(set).length === 0) return "sets nothing";
    if (!Object.keys(set).every((field) => isName(field, 40))) return "sets a field that has no name";
    if (set.struck !== undefined && typeof set.struck !== "boolean")
      return "has a struck that is not yes or no";
  }
  if (bytesOf(content(raw as unknown as Entry)) > mostBytes) return "is larger than 16 KB";
  return undefined;
}

const isRecord = (raw: unknown): raw is Fields =>
  typeof raw === "object" && raw !== null && !Array.isArray(raw);

const isName = (raw: unknown, most: number): boolean =>
  typeof raw === "string" && raw.length <= most && /^[a-z][A-Za-z0-9]*$/.test(raw);

export const isCount = (raw: unknown, least: number): raw is number =>
  Number.isSafeInteger(raw) && (raw as number) >= least;

/** Only what an entry says; nothing of what is known about it here. */
export const content = ({ id, record, kind, trip, prev, set, strike, at, n }: Entry): Entry => ({
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

/** Whether two are the same as JSON, whatever the order of their fields. */
export const same = (one: unknown, other: unknown): boolean => canonical(one) === canonical(other);

const canonical = (value: unknown): string =>
  JSON.stringify(value, (_, v) =>
    isRecord(v) ? Object.fromEntries(Object.entries(v).sort(([a], [b]) => (a < b ? -1 : 1))) : v,
  );
