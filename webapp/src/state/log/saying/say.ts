/** What is said of trips and records: something new, something more, something else, and struck out. */
import { fitting, momentOf } from "../../entry/contract";
import { contract } from "../../entry/contract.gen";
import type { Draft, Fields } from "../../entry/entry";
import { type Folded, foldAll, heads } from "../../entry/fold";
import { uuid } from "../../entry/uuid";
import type { Along } from "../disk/book";
import {
  book,
  followBoat,
  isNow,
  lookAnew,
  mayClose,
  noteIn,
  ranAt,
  recordOf,
  records,
  running,
  tripOf,
  you,
} from "../log";
import { said } from "../waiting";
import { proposalOf } from "./proposal";
import { write } from "./writing";

/** Begins a trip and notes in it from now on: one of then only where none runs, and it is not over by now. */
export function startTrip(set: Fields, then?: number): string {
  const trip = uuid();
  const opened = momentOf(then);
  if (then === undefined || (!running.value && isNow({ last: opened }))) noteIn(trip);
  write([draft({ id: trip, kind: "trip", trip }, [], { set: { ...set, opened } }, then)]);
  return trip;
}

/** This phone notes in a trip that nobody has noted in for long: it goes on, for everybody. */
export async function goOnIn(trip: string): Promise<void> {
  const now = tripOf(trip);
  if (now && !isNow(now) && mayClose()) await sayOfTrip(trip, { closed: null });
  noteIn(trip);
}

/** With neither place nor spread a hookup says only that it was, and the contract wants a field of every entry. */
export const saying = (set: Fields): Fields => (Object.keys(set).length > 0 ? set : { struck: false });

/** Notes something new in the running trip or the boat's, and begins one if neither is open. */
export function note(kind: string, set: Fields, along: Along = {}, at?: number): Folded {
  lookAnew();
  followBoat();
  return begin(running.value?.trip ?? startTrip({}), kind, set, along, at);
}

/** Notes something of then, in the trip that ran then, or one of then. */
export function noteOfThen(kind: string, set: Fields, at: number): Folded {
  lookAnew();
  followBoat();
  return begin(ranAt(at)?.trip ?? startTrip({}, at), kind, set, {}, at);
}

function begin(trip: string, kind: string, set: Fields, along: Along, at?: number): Folded {
  const first = draft({ id: uuid(), kind, trip }, [], { set: saying(set) }, at);
  write([first], along);
  return foldAll([{ ...first, own: true, n: 1 }])[0] as Folded;
}

/** Notes something in a trip that is there, whether or not it runs. */
export function noteInTrip(trip: string, kind: string, set: Fields): void {
  write([draft({ id: uuid(), kind, trip }, [], { set })]);
}

/** Says something of a trip, whether or not it is on screen. */
export async function sayOfTrip(trip: string, set: Fields): Promise<void> {
  const entries = (await book.entriesOf(trip)).filter((entry) => entry.record === trip && !entry.refused);
  const coming = said().filter((entry) => entry.record === trip);
  write([draft({ id: trip, kind: "trip", trip }, heads([...entries, ...coming]), { set })]);
}

/** Whether this phone may change a record: a guest's own ones, and what is anybody's. */
export const mayAmend = ({ kind, entries }: Folded): boolean =>
  (you.value?.may.includes("crew") ?? true) ||
  (contract.anybodys as readonly string[]).includes(kind) ||
  (entries[0]?.own === true && !entries.some(({ refused }) => refused?.code === "others"));

/**
 * Says something more, or something else, of a record; of one that is another's a guest proposes it. What the server
 * refused of it is said again.
 */
export function amend(of: Folded, patch: Fields): void {
  const now = foldedNow(of);
  const { entries, ...record } = now;
  const refused = entries.filter((entry) => entry.refused || entry.kept);
  const again = refused.map((entry) => (entry.strike ? { struck: true } : entry.set));
  const set: Fields = Object.assign({}, ...again, patch);
  const next = mayAmend(now)
    ? draft(record, heads(entries.filter((entry) => !entry.refused && !entry.kept)), { set })
    : proposing(now, set);
  write([next], { replaced: refused.map(({ id }) => ({ entry: id, by: next.id })) });
}

function proposing(of: Folded, says: Fields): Draft {
  const had = proposalOf(of, records.value);
  const before = had?.fields.get("says")?.value as Fields | undefined;
  const record = had ?? { id: uuid(), kind: "proposal", trip: of.trip };
  const all = fitting(of.kind, { ...before, ...says });
  return draft(record, had ? heads(had.entries) : [], { set: { of: of.id, says: all } });
}

/** Strikes a record through; it stays legible. */
export function strike(of: Folded): void {
  const record = foldedNow(of);
  if (mayAmend(record)) write([draft(record, heads(record.entries), { strike: true })]);
  else amend(record, { struck: true });
}

export const unstrike = (of: Folded): void => amend(of, { struck: false });

/** A record as it is now, if its trip is on screen; else as it was. */
export const foldedNow = (of: Folded): Folded => recordOf(of.id) ?? of;

const draft = (
  of: { id: string; kind: string; trip: string },
  prev: string[],
  says: { set: Fields } | { strike: true },
  at?: number,
): Draft => ({
  id: uuid(),
  record: of.id,
  kind: of.kind,
  trip: of.trip,
  prev,
  // What no phone could hold is not noted: a clock of long ago, a character that nobody sees.
  ...("set" in says ? { set: fitting(of.kind, says.set) } : says),
  at: momentOf(at),
});
