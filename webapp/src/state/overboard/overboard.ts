/**
 * Somebody overboard: noted at once with the last fix, wherever the app is; shown on every phone whose log has it, until
 * somebody says how it ended.
 */
import { batch, computed, effect, signal, untracked } from "@preact/signals";
import { boatTime, clockAhead } from "../../base/phone/clock";
import { fleeting, lastFix, type Taken, watchPosition } from "../../base/position/position";
import { byPhone, isGuests } from "../crew/role";
import type { Fields, Stored } from "../entry/entry";
import { type Folded, foldAll, number } from "../entry/fold";
import { changesOf } from "../log/changes";
import { atSea, book, ofKind, records, running, show, tripOf } from "../log/log";
import { proposalsFor } from "../log/saying/proposal";
import { amend, mayAmend, note } from "../log/saying/say";
import { isCrews } from "../log/whose";
import { doubtOf } from "./doubt";
import type { Moment } from "./moment";

/** The words of the log for how it ended. */
export const outcomes = ["aboard", "over to others", "mistake"] as const;
export type Outcome = (typeof outcomes)[number];

const kind = "overboard";

/** A case that nobody has ended is over all the same after so many ms, unless its trip still runs. */
const lasting = 18 * 3600_000;

/** What the disk has of all trips. */
const onDisk = signal<Folded[]>([]);
/** Noted here, and not yet read back. */
const fresh = signal<Folded[]>([]);
/** When this phone first saw a case, by its own clock, ms. */
const seen = signal<ReadonlyMap<string, number>>(new Map());

const isOpen = (record: Folded): boolean =>
  !record.struck && number(record, "ended") === undefined && isOfNow(record);

function isOfNow(record: Folded): boolean {
  const runs = atSea.value && running.value?.parts.includes(record.trip);
  // A guest is aboard for one trip: once that is over nobody is called by what comes of it.
  if (!record.entries[0]?.own && isGuests(record) && isTripOver(record.trip)) return false;
  // One that lies ahead is of a phone whose clock is: it is no older than when it came.
  return runs || boatTime(Date.now()) - wentAt(record) < lasting;
}

function isTripOver(id: string): boolean {
  const trip = tripOf(id);
  return trip !== undefined && (trip.closed !== null || trip.struck);
}

/** When somebody went over, by the boat's clock as whoever noted it knew it: the first touch, before the one that said it was meant. */
export const wentAt = (record: Folded): number => number(record, "went") ?? record.entries[0]?.at ?? 0;

/** What only whoever noted it says: when, and where the boat was. */
const placed = ["went", "fixed", "lat", "lon", "accuracy", "sog", "cog", "fixAge"];

/** A case as it counts: nobody else moves it, and of others only the crew's word says that it is over. */
function asItCounts(record: Folded): Folded {
  const [first] = record.entries;
  const told = (entry: Stored): Stored => {
    if (!first || isOneWriters(entry, first)) return entry;
    const { strike, ...rest } = entry;
    if (!isCrews(entry)) return { ...rest, set: {} };
    return { ...entry, ...(entry.set && { set: without(entry.set, placed) }) };
  };
  return foldAll(record.entries.map(told))[0] ?? record;
}

const isOneWriters = (a: Stored, b: Stored): boolean => a === b || (a.own ? b.own === true : a.by === b.by);

const without = (set: Fields, names: string[]): Fields =>
  Object.fromEntries(Object.entries(set).filter(([name]) => !names.includes(name)));

/** Whose case is looked at first: this phone's own, then the crew's, then a guest's. */
const rank = ({ entries: [first] }: Folded): number => (first?.own ? 0 : first && isCrews(first) ? 1 : 2);

/** Cases as they count: this phone's own first, then the crew's, the latest first, as far as clocks are believed. */
export const counting = (all: Folded[]): Folded[] =>
  all.map(asItCounts).sort((a, b) => rank(a) - rank(b) || believed(b) - believed(a) || wentAt(a) - wentAt(b));

/** All cases, each as it is known best, in the order in which they count. */
export const cases = computed<Folded[]>(() => {
  const all = new Map<string, Folded>();
  for (const one of [...fresh.value, ...onDisk.value]) all.set(one.id, one);
  for (const one of ofKind(kind)) all.set(one.id, one);
  return counting([...all.values()]);
});

/** Those that are not over. */
export const open = computed<Folded[]>(() => cases.value.filter(isOpen));

/** Presses of one phone within so many ms of its latest are of one event, which the first of them tells. A judgement. */
const oneEvent = 30 * 60_000;

const isDoubted = (record: Folded): boolean => doubtOf(record) !== undefined;

/**
 * With the first press of the latest event before all others: where and when somebody went, not the last cry for it. None
 * that is doubted, as long as there is another.
 */
function firstOfEvent(all: Folded[]): Folded[] {
  const sound = all.filter((record) => !isDoubted(record));
  const of = sound.length > 0 ? sound : all;
  const latest = Math.max(...of.map(believed));
  const event = of.filter((record) => latest - believed(record) <= oneEvent);
  const first = event.reduce((a, b) => (believed(b) < believed(a) ? b : a));
  return [first, ...all.filter((record) => record !== first)];
}

/**
 * Cases, in the order in which they count, as they are told: those of one guest's phone are one, however often it is
 * pressed there. All others are told one by one, never as fewer than there are people. What is doubted comes last.
 */
export function together(all: Folded[]): Folded[][] {
  const guests = byPhone(all.filter(isGuests), ({ entries: [first] }) => first).map(firstOfEvent);
  const led = ([first]: Folded[]) => Number(first !== undefined && isDoubted(first));
  return [
    ...all.filter((record) => !isGuests(record)).map((record) => [record]),
    ...guests.sort((a, b) => led(a) - led(b)),
  ];
}

/** The open cases as they are told. */
export const calls = computed<Folded[][]>(() => together(open.value));

/** The one that is told before all others. */
export const foremost = computed<Folded | undefined>(() => calls.value[0]?.[0]);

/** All that is told together with a case. */
export const callOf = (record: Folded): Folded[] =>
  calls.value.find((call) => call.some(({ id }) => id === record.id)) ?? [record];

/**
 * When somebody went over, by what is believed: where the writer's clock is off by more than a case can last, or ahead,
 * when this phone first saw it.
 */
function believed(record: Folded): number {
  const [now, went] = [boatTime(Date.now()), wentAt(record)];
  const saw = seen.value.get(record.id);
  const first = saw && boatTime(saw);
  return went <= now && (now - went < lasting || first === undefined) ? went : Math.min(now, first ?? now);
}

/** ms since then. */
export const sinceWent = (record: Folded): number => boatTime(Date.now()) - believed(record);

/** Whether the time that the record tells can be shown: it is near what is believed; of a case that is over, it is past. */
export const isTimeTold = (record: Folded): boolean =>
  wentAt(record) - boatTime(Date.now()) < 60_000 &&
  (number(record, "ended") !== undefined || believed(record) - wentAt(record) < 60_000);

/** A fix as the record keeps it, with when by the boat's clock; speed and course only where they are of the moment. */
export function fixFields({ fix, at }: Taken, when: number): { [field: string]: number } {
  const { sog, cog, lat, lon, accuracy } = fix;
  const fixed = Math.round(boatTime(at.wall));
  const off = Math.abs(when - fixed);
  return {
    lat,
    lon,
    accuracy,
    fixed,
    ...(off > fleeting && { fixAge: Math.max(0, Math.round((when - fixed) / 1000)) }),
    ...(off <= fleeting && sog !== undefined && { sog }),
    ...(off <= fleeting && cog !== undefined && { cog }),
  };
}

export function cry({ when, fix }: Moment): Folded {
  const went = Math.round(boatTime(when));
  const record = note(kind, { went, ...(fix && fixFields(fix, went)) });
  fresh.value = [...fresh.value, record];
  if (running.value) show(running.value.trip);
  return record;
}

export function end(record: Folded, outcome: Outcome): () => void {
  amend(record, { ended: Date.now(), outcome });
  return () => amend(now(record), { ended: null, outcome: null });
}

/** Ends all that one phone pressed. */
export function endAll(all: Folded[], outcome: Outcome): () => void {
  const undo = batch(() => all.map((record) => end(record, outcome)));
  return () =>
    batch(() => {
      for (const one of undo) one();
    });
}

/** Who said last that it is over; undefined while it lasts. */
export const endedBy = (record: Folded): Stored | undefined =>
  number(record, "ended") === undefined ? undefined : record.fields.get("ended")?.from;

/** Whether this phone's word ends it: that of the crew, and of whoever noted it. */
export const mayEnd = mayAmend;

/** What guests say of how it ended, each phone last: for the crew to know, and to decide. */
export const saidOver = (record: Folded): { outcome: string; from: Stored }[] =>
  byPhone(
    proposalsFor(record, records.value).flatMap(({ says: { outcome }, from }) =>
      typeof outcome === "string" ? [{ outcome, from }] : [],
    ),
    ({ from }) => from,
  ).flatMap((said) => said.slice(-1));

const now = (of: Folded): Folded => cases.value.find(({ id }) => id === of.id) ?? of;

/** Whether a fix tells better where it was than the one that the record has. */
export function isNearer(taken: Taken, record: Folded): boolean {
  const had = number(record, "fixed");
  const went = wentAt(record);
  const off = Math.abs(boatTime(taken.at.wall) - went);
  return off < longest && (had === undefined || off + worthIt < Math.abs(had - went));
}

/** A fix that came longer after, ms, says where the boat is and not where it was. */
const longest = 120_000;
/** By so much a fix must be nearer to be noted anew, ms. */
const worthIt = 5000;

/** Reads the cases with every change of them, and as long as one is open follows the receiver. */
export function keepOverboard(): void {
  const noted = changesOf([kind]);
  effect(() => {
    if (noted.value) untracked(read);
  });
  const some = computed(() => open.value.length > 0);
  effect(() => (some.value ? watchPosition() : undefined));
  effect(() => {
    const taken = lastFix.value;
    const own = open.value.find((record) => record.entries[0]?.own);
    if (taken && own && isNearer(taken, own)) untracked(() => amend(own, fixFields(taken, wentAt(own))));
  });
  /** When own cases were, by this phone's clock. */
  const walls = new Map<string, number>();
  effect(() => {
    const ahead = clockAhead.signal.value;
    for (const one of open.value.filter(({ entries: [first] }) => first?.own)) {
      const wall = walls.get(one.id) ?? wallOf(one, ahead);
      walls.set(one.id, wall);
      const off = wentAt(one) + ahead - wall;
      if (off !== 0) untracked(() => amend(one, earlier(one, off)));
    }
  });
}

/** What an older app noted, or this one before it knew better, is by this phone's clock: then it is nearer to when it was written. */
function wallOf(record: Folded, ahead: number): number {
  const went = wentAt(record);
  const off = went - (record.entries[0]?.at ?? went);
  return Math.abs(off) < Math.abs(off + ahead) ? went : went + ahead;
}

/** Its times, where this phone has learned since that its clock was wrong: others must not look where somebody drifted for hours. */
function earlier(record: Folded, by: number): Fields {
  const fixed = number(record, "fixed");
  return { went: wentAt(record) - by, ...(fixed !== undefined && { fixed: fixed - by }) };
}

async function read(): Promise<void> {
  const entries = await book.entriesOfKinds([kind]).catch(() => []);
  const all = foldAll(entries);
  onDisk.value = all;
  fresh.value = fresh.value.filter(({ id }) => !all.some((one) => one.id === id));
  const known = seen.peek();
  if (all.some(({ id }) => !known.has(id)))
    seen.value = new Map(all.map(({ id }) => [id, known.get(id) ?? Date.now()]));
}
