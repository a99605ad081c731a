/**
 * The log as the screens see it. What is said is shown at once, written at once, and called saved only when
 * the disk has it; writing that fails is told and tried again until it succeeds.
 */
import { batch, computed, signal } from "@preact/signals";
import { firstRetry, inTime, longestRetry, openWithin, over, tell } from "../../base/store/kept";
import { fitting, momentNow } from "../entry/contract";
import { contract } from "../entry/contract.gen";
import type { Draft, Fields, Stored } from "../entry/entry";
import { type Folded, foldAll, heads } from "../entry/fold";
import { Records } from "../entry/records";
import { uuid } from "../entry/uuid";
import { count } from "./changes";
import { byBoat } from "./clock";
import { type Along, Book, type Put } from "./disk/book";
import type { You } from "./disk/db";
import type { Standing } from "./disk/standing";
import { type Summary, summarise } from "./disk/summary";
import { intoOf, rootIn, type Trip, tripsOf } from "./one";
import { proposalOf } from "./proposal";
import { drop, keep, left } from "./unwritten";

export const book = new Book();

/** What is known of each trip that was ever begun, and of what is of none; undefined until it has been read. */
const known = signal<Summary[] | undefined>(undefined);
const parts = computed(() => known.value?.filter(({ trip }) => trip !== ""));
/** All trips known here, those that were made one as one, the latest first; undefined until they have been read. */
export const summaries = computed<Trip[] | undefined>(() => parts.value && tripsOf(parts.value));
const into = computed(() => intoOf(parts.value ?? []));

/** The trip that this one is a part of, itself if it is a part of none. */
export const rootOf = (trip: string): string => rootIn(into.value, trip);

export const tripOf = (trip: string): Trip | undefined => {
  const root = rootOf(trip);
  return summaries.value?.find((one) => one.trip === root);
};

export const standing = signal<Standing>({
  unsent: 0,
  refused: [],
  kept: [],
  held: [],
  photos: [],
  heldPhotos: [],
});
/** Who this phone is to the boat's server; undefined: nobody, so far. */
export const you = signal<You | undefined>(undefined);

/** A trip, its parts, its records by its entries on disk, and those that cannot be read. */
interface Shown {
  trip: string;
  parts: string[];
  records: Records;
  unreadable: Stored[];
}

/** The trip on screen. */
const shown = signal<Shown | undefined>(undefined);
const current = signal<string | undefined>(undefined);

interface Waiting {
  drafts: Draft[];
  along: Along;
  /** The name that it is kept by until it is on disk. */
  key: string | undefined;
}

/** What has been said and is not on disk yet. */
const waiting = signal<Waiting[]>([]);

/** How many entries are on their way to the disk: nobody else has them. */
export const unwritten = computed(() => waiting.value.reduce((sum, { drafts }) => sum + drafts.length, 0));

/** The same as entries, after all others of this phone. */
const said = (): Stored[] =>
  waiting.value
    .flatMap(({ drafts }) => drafts)
    .map((draft, i) => ({ ...draft, own: true, n: Number.MAX_SAFE_INTEGER - 10_000 + i }));

/** Goes up with everything that this page has written. */
export const written = signal(0);

/** A trip that nobody has noted in for so long is over, even if nobody closed it. */
export const forgotten = 18 * 3600_000;

/** When it was last looked which trips are over: time alone ends them. */
export const looked = signal(Date.now());

/** Looks anew which trips are over by now. */
export const lookAnew = (): void => {
  looked.value = Date.now();
};

const isOpen = (trip: Summary) => trip.closed === null && !trip.struck;

export const isNow = (trip: Summary) => byBoat(looked.value) - trip.last < forgotten;

/** A guest begins no trip of the boat's, and notes in that of the invitation as long as it is open. */
const isGuests = (trip: Trip): boolean => {
  const who = you.value;
  return who?.trip !== undefined && !who.may.includes("trips") && rootOf(who.trip) === trip.trip;
};

/** The trip that was last noted in, open or not. */
export const noted = computed<Trip | undefined>(() => (current.value ? tripOf(current.value) : undefined));

/** The trip that is noted in, from the moment it is begun until it is closed or forgotten; undefined: none runs. */
export const running = computed<Trip | undefined>(() => {
  const trip = current.value;
  if (trip === undefined) return undefined;
  const coming = said().filter((entry) => entry.trip === trip);
  const now = tripOf(trip) ?? (coming.length > 0 ? { ...summarise(coming), parts: [trip] } : undefined);
  const goesOn = now && (isNow(now) || coming.length > 0 || isGuests(now));
  return goesOn && isOpen(now) ? now : undefined;
});

/** The trip of the boat that is open by now, for one who notes in none: a guest's is that of the invitation. */
function openOnBoat(): Trip | undefined {
  const who = you.value;
  if (!who) return undefined;
  const open = (trip: Trip | undefined) => (trip && isOpen(trip) ? trip : undefined);
  if (!who.may.includes("trips")) return who.trip ? open(tripOf(who.trip)) : undefined;
  const all = (summaries.value ?? []).filter((trip) => isOpen(trip) && isNow(trip));
  return all.sort((a, b) => b.last - a.last)[0];
}

/** A phone that notes in no trip notes in the boat's from now on; a guest's in no other while that one is open. */
function followBoat(): void {
  const boats = openOnBoat();
  const guest = you.value && !you.value.may.includes("trips");
  if (boats && boats.trip !== running.value?.trip && (guest || !running.value)) noteIn(boats.trip);
}

/** Whether a trip runs and somebody is likely to be out there. */
export const atSea = computed(() => {
  const trip = running.value;
  return trip !== undefined && isNow(trip);
});

/** Other trips that nobody has closed. */
export const openTrips = computed(() => (summaries.value ?? []).filter(isOpen));

export const mayClose = () => you.value?.may.includes("crew") ?? true;

/** The records of the trip on screen, with what is being written. */
const shownRecords = computed<Records>(() => {
  const now = shown.value;
  return now ? now.records.with(said().filter((entry) => now.parts.includes(entry.trip))) : Records.none;
});

/** All of them; whoever looks for some asks for these, since they may be many. */
export const records = computed<Folded[]>(() => shownRecords.value.all);
export const ofKind = (kind: string): Folded[] => shownRecords.value.ofKind(kind);
export const recordOf = (id: string | undefined): Folded | undefined =>
  id === undefined ? undefined : shownRecords.value.find(id);

/** Entries of the trip on screen that do not keep the contract, the latest first. */
export const unreadable = computed<Stored[]>(() => shown.value?.unreadable ?? []);

export const shownTrip = computed(() => shown.value?.trip);

/** Whether a record is on disk; without one, whether all is that was said. */
export const isSaved = (record?: Folded): boolean =>
  !waiting.value.some(({ drafts }) => !record || drafts.some((draft) => draft.record === record.id));

/** Reads what the screens need. Never fails: what cannot be read is told. */
export async function loadLog(): Promise<void> {
  try {
    const reading = resume().then(refresh);
    await inTime(
      openWithin,
      // It may come later than that.
      reading.then(() => over({ kind: "unopened", name: "log" })),
    );
  } catch {
    unread();
  }
}

const unread = () => tell({ kind: "unopened", name: "log" });

/** Writes what a page that went away had said and not written. What is on disk after all is left as it is. */
async function resume(): Promise<void> {
  for (const { key, said } of left()) {
    const { drafts, replaced, current } = said;
    const along = replaced ? { replaced } : {};
    try {
      await book.append(drafts, along);
      if (current) await book.setMeta("current", current);
      drop(key);
    } catch {
      // No room for it, or no disk: what is there is shown all the same, and it is told and tried again.
      waiting.value = [...waiting.value, { drafts, along, key }];
    }
  }
  if (waiting.value.length > 0) flush();
}

/** Brings a trip on screen. */
export async function show(wanted: string): Promise<void> {
  const trip = rootOf(wanted);
  if (shown.value?.trip === trip) return;
  shown.value = { trip, parts: [trip], records: Records.none, unreadable: [] };
  await refresh().catch(unread);
}

let refreshing: Promise<void> | undefined;
let again = false;
/** The trip on screen is to be read as a whole, and not only what this page has put in it. */
let whole = false;

/** Reads again all that is shown, because another tab may have written something. */
export function refresh(): Promise<void> {
  whole = true;
  book.forgetWords();
  return readAgain();
}

function readAgain(): Promise<void> {
  again = true;
  refreshing ??= (async () => {
    try {
      while (again) {
        again = false;
        await read();
      }
    } finally {
      refreshing = undefined;
    }
  })();
  return refreshing;
}

async function read(): Promise<void> {
  const fresh = book.justPut();
  const all = whole || !fresh;
  whole = false;
  try {
    const trips = known.value && fresh && !all ? withTrips(known.value, fresh) : await book.summaries();
    const [now, who, last] = await Promise.all([
      book.standing(trips),
      book.meta("you"),
      book.meta("current"),
    ]);
    const before = shown.value;
    // What is likely to be on screen first is read with the rest.
    const likely = known.value ? undefined : trips.find((one) => one.trip === last && isOpen(one));
    const of = before ? partsOf(before.trip, trips) : likely && partsOf(likely.trip, trips);
    const other = of?.join() !== before?.parts.join();
    const entries = of && (all || other) ? await book.entriesOf(of) : undefined;
    batch(() => {
      lookAnew();
      known.value = trips;
      standing.value = now;
      you.value = who;
      current.value ??= last;
      const on = shown.value;
      if (on && on.trip === before?.trip) {
        if (entries && of) shown.value = whatIs(of, entries);
        else if (fresh) shown.value = withPut(on, fresh.entries);
      } else if (!on && entries && of && running.value?.trip === of[0]) shown.value = whatIs(of, entries);
      count(all ? undefined : fresh?.entries);
      followBoat();
    });
  } catch (fault) {
    whole = true;
    throw fault;
  }
}

/** There may be many: only those in which this page has put something are other than they were. */
function withTrips(all: Summary[], { trips }: Put): Summary[] {
  const had = new Set(all.map(({ trip }) => trip));
  const begun = [...trips.values()].filter(({ trip }) => !had.has(trip));
  return [...all.map((one) => trips.get(one.trip) ?? one), ...begun];
}

/** The trips that are seen with this one by now: where it leads, and all that lead there. */
function partsOf(trip: string, known: Summary[]): string[] {
  const leads = intoOf(known);
  const root = rootIn(leads, trip);
  return [root, ...known.map((one) => one.trip).filter((one) => one !== root && rootIn(leads, one) === root)];
}

const whatIs = (parts: string[], entries: Stored[]): Shown => ({
  trip: parts[0] as string,
  parts,
  records: Records.of(entries),
  unreadable: unreadableOf(entries),
});

/** A trip may be large: what this page has put goes in its place. */
function withPut(on: Shown, put: Stored[]): Shown {
  const own = put.filter((entry) => on.parts.includes(entry.trip));
  if (own.length === 0) return on;
  const last = new Map([...on.unreadable, ...own].map((entry) => [entry.id, entry]));
  return { ...on, records: on.records.with(own), unreadable: unreadableOf([...last.values()]) };
}

const unreadableOf = (entries: Stored[]): Stored[] =>
  entries.filter((entry) => entry.unreadable).sort((a, b) => b.at - a.at);

const tabs = typeof BroadcastChannel === "undefined" ? undefined : new BroadcastChannel("wirewake-log");
if (tabs) tabs.onmessage = () => refresh().catch(unread);

/** This page has changed the log on disk: all tabs read it. */
export async function changed(): Promise<void> {
  tabs?.postMessage("changed");
  await readAgain();
}

/** It has changed which photos have reached the server. */
export async function recount(): Promise<void> {
  standing.value = await book.standing();
}

/** Begins a trip and notes in it from now on. */
export function startTrip(set: Fields): string {
  const trip = uuid();
  noteIn(trip);
  write([draft({ id: trip, kind: "trip", trip }, [], { set: { ...set, opened: Date.now() } })]);
  return trip;
}

/** From now on this phone notes in this trip. */
export function noteIn(trip: string): void {
  current.value = trip;
  book.setMeta("current", trip).catch(() => tell({ kind: "unsaved", name: "log", full: false }));
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
export function note(kind: string, set: Fields, along: Along = {}): Folded {
  lookAnew();
  followBoat();
  const trip = running.value?.trip ?? startTrip({});
  const first = draft({ id: uuid(), kind, trip }, [], { set: saying(set) });
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
): Draft => ({
  id: uuid(),
  record: of.id,
  kind: of.kind,
  trip: of.trip,
  prev,
  // What no phone could hold is not noted: a clock of long ago, a character that nobody sees.
  ...("set" in says ? { set: fitting(of.kind, says.set) } : says),
  at: momentNow(),
});

let writing = false;
let wait = firstRetry;
let retry: ReturnType<typeof setTimeout> | undefined;

function write(drafts: Draft[], along: Along = {}): void {
  const { photos, replaced } = along;
  const key = photos ? undefined : keep({ drafts, ...(replaced && { replaced }), current: current.value });
  waiting.value = [...waiting.value, { drafts, along, key }];
  flush();
}

async function flush(): Promise<void> {
  if (writing) return;
  writing = true;
  clearTimeout(retry);
  try {
    for (let next = waiting.value[0]; next; next = waiting.value[0]) await save(next);
    wait = firstRetry;
    over({ kind: "unsaved", name: "log" });
  } catch (fault) {
    const full = isFull(fault);
    tell({ kind: "unsaved", name: "log", full });
    if (full) await notesFirst();
    retry = setTimeout(flush, wait);
    wait = Math.min(2 * wait, longestRetry);
  } finally {
    writing = false;
  }
}

async function save(next: Waiting): Promise<void> {
  await book.append(next.drafts, next.along).catch(async (fault) => {
    if (!isFull(fault) || !(await book.makeRoom().catch(() => false))) throw fault;
    return book.append(next.drafts, next.along);
  });
  written.value++;
  await changed();
  waiting.value = waiting.value.filter((one) => one !== next);
  if (next.key) drop(next.key);
}

export const isFull = (fault: unknown): boolean => (fault as Error).name === "QuotaExceededError";

/** Where a photo is too much for what room is left, the notes behind it are not. */
async function notesFirst(): Promise<void> {
  for (const next of waiting.value) {
    if (next.along.photos?.length) continue;
    try {
      await save(next);
    } catch {
      return;
    }
  }
}
