/**
 * An entry of the log: one statement about one record, never changed once it is written. What it may be is
 * told in server/sync/README.md; what a record says now is the fold of its entries (fold.ts).
 */
import { faultOfContent } from "./contract";
import { contract } from "./contract.gen";
import { isUuid, uuid } from "./uuid";

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
  /** The writer's mark (mark.ts), if it made one. */
  mark?: string;
}

/** An entry as the server sends it: with its place in the whole log. */
export interface Numbered extends Entry, Writer, Pick<Stored, "unreadable"> {
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
  /** It does not keep the contract: it is held as it came, shown as one that cannot be read, and says nothing. */
  unreadable?: { text: string; why: string };
  /** The server's number; absent until it has one. */
  no?: number;
  /** This phone wrote it. */
  own?: true;
  /** Only in the outbox: its place there, by the number it once had and its count. */
  out?: [number, number];
  /** Without a number now only because this phone does not see its trip any more: the log that had numbered it (logOf). */
  once?: string;
  /** Why the server did not take it. */
  refused?: Refusal;
  /** Refused, and kept on this phone only, because somebody chose so. */
  kept?: Refusal;
  /** The entry that says again what was refused here. */
  replaced?: string;
}

/** What is wrong with it, for whoever wrote it; undefined: it is an entry. */
export function faultOf(raw: unknown): string | undefined {
  const fault = faultOfContent(raw);
  if (fault) return fault;
  return bytesOf(content(raw as Entry)) > contract.entry.bytes ? "is larger than 16 KB" : undefined;
}

const isRecord = (raw: unknown): raw is Fields =>
  typeof raw === "object" && raw !== null && !Array.isArray(raw);

export const isCount = (raw: unknown, least: number): raw is number =>
  Number.isSafeInteger(raw) && (raw as number) >= least;

/** What an entry says, also of one that cannot be read. */
export const said = (entry: Stored): Entry =>
  entry.unreadable ? (JSON.parse(entry.unreadable.text) as Entry) : content(entry);

/** An entry that keeps the contract as it is, and one that does not so that it can be held. */
export function held<T extends Entry>(raw: T): T & Pick<Stored, "unreadable"> {
  const why = faultOf(raw);
  if (why === undefined) return raw;
  const { id, record, trip, kind, at, n } = raw;
  const own = isUuid(id) ? id : uuid();
  const count = (one: unknown, otherwise: number) =>
    Number.isSafeInteger(one) ? (one as number) : otherwise;
  const { set: _set, strike: _strike, ...rest } = raw;
  return {
    ...(rest as T),
    id: own,
    record: isUuid(record) ? record : own,
    trip: isUuid(trip) ? trip : "",
    kind: typeof kind === "string" ? kind : "",
    prev: [],
    at: Math.min(Math.max(count(at, 0), contract.entry.time.min), contract.entry.time.max),
    n: count(n, 0),
    unreadable: { text: written(raw), why },
  };
}

/** Too deep to be written as JSON is too deep for everybody: then no more than which entry it is. */
function written(raw: Entry): string {
  try {
    return JSON.stringify(content(raw));
  } catch {
    const { id, record, trip } = raw;
    return JSON.stringify({ id, record, trip });
  }
}

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
export const same = (one: unknown, other: unknown): boolean =>
  one === other || canonical(one) === canonical(other);

/** As RFC 8785 writes it, of what keeps the contract. */
export const canonical = (value: unknown): string =>
  JSON.stringify(value, (_, v) =>
    isRecord(v) ? Object.fromEntries(Object.entries(v).sort(([a], [b]) => (a < b ? -1 : 1))) : v,
  );
