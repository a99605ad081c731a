/** The log as the screens see it: what is known of each trip, and the one on screen with what is still on its way to the disk. */
import { batch, computed, type ReadonlySignal, signal } from "@preact/signals";
import { byBoat } from "../../base/phone/clock";
import { soon } from "../../base/shell/soon";
import { tell } from "../../base/store/kept";
import { type Stored, same } from "../entry/entry";
import type { Folded } from "../entry/fold";
import { Records } from "../entry/records";
import { count } from "./changes";
import { Book, type Put } from "./disk/book";
import type { You } from "./disk/db";
import type { Standing } from "./disk/standing";
import { type Summary, summarise } from "./disk/summary";
import { intoOf, rootIn, type Trip, tripsOf } from "./one";
import { said } from "./waiting";

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
  /** Its records are there: before that nobody can say what it has not. */
  read: boolean;
}

/** The trip on screen. */
const shown = signal<Shown | undefined>(undefined);
export const current = signal<string | undefined>(undefined);

/** A trip that nobody has noted in for so long is over, even if nobody closed it. */
export const forgotten = 18 * 3600_000;

/** When it was last looked which trips are over: time alone ends them. */
export const looked = signal(Date.now());

/** Looks anew which trips are over by now. */
export const lookAnew = (): void => {
  looked.value = Date.now();
};

const isOpen = (trip: Summary) => trip.closed === null && !trip.struck;

export const isNow = (trip: Pick<Summary, "last">) => byBoat(looked.value) - trip.last < forgotten;

/** A guest begins no trip of the boat's, and notes in that of the invitation as long as it is open. */
const isGuests = (trip: Trip): boolean => {
  const who = you.value;
  return who?.trip !== undefined && !who.may.includes("trips") && rootOf(who.trip) === trip.trip;
};

/** The trip that was last noted in, open or not. */
export const noted = computed<Trip | undefined>(() => (current.value ? tripOf(current.value) : undefined));

/** A trip by what is on its way to the disk; undefined: nothing is. */
function comingOf(trip: string): Trip | undefined {
  const coming = said().filter((entry) => entry.trip === trip);
  return coming.length > 0 ? { ...summarise(coming), parts: [trip] } : undefined;
}

/** The trip that is noted in, from the moment it is begun until it is closed or forgotten; undefined: none runs. */
export const running = computed<Trip | undefined>(() => {
  const trip = current.value;
  if (trip === undefined) return undefined;
  const coming = comingOf(trip);
  const now = tripOf(trip) ?? coming;
  const goesOn = now && (isNow(now) || coming || isGuests(now));
  return goesOn && isOpen(now) ? now : undefined;
});

const isGuest = () => you.value && !you.value.may.includes("trips");

/** The trip that ran then, the one that is noted in before all others; a guest notes in no other. */
export function ranAt(at: number): Trip | undefined {
  const now = running.value;
  if (isGuest()) return now;
  const ran = (trip: Trip) =>
    !trip.struck && trip.opened <= at && at <= (trip.closed ?? trip.last + forgotten);
  if (now && ran(now)) return now;
  const begun = said().flatMap(({ trip }) => (tripOf(trip) ? [] : (comingOf(trip) ?? [])));
  return [...begun, ...(summaries.value ?? [])].find(ran);
}

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
export function followBoat(): void {
  const boats = openOnBoat();
  if (boats && boats.trip !== running.value?.trip && (isGuest() || !running.value)) noteIn(boats.trip);
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

/** Whoever shows those of one kind is shown anew only when one of these is another. */
const kinds = new Map<string, ReadonlySignal<Folded[]>>();

/** All of them; whoever looks for some asks for these, since they may be many. */
export const records = computed<Folded[]>(() => shownRecords.value.all);
export const ofKind = (kind: string): Folded[] => {
  let own = kinds.get(kind);
  if (!own) {
    own = computed(() => shownRecords.value.ofKind(kind));
    kinds.set(kind, own);
  }
  return own.value;
};
export const recordOf = (id: string | undefined): Folded | undefined =>
  id === undefined ? undefined : shownRecords.value.find(id);

/** Entries of the trip on screen that do not keep the contract, the latest first. */
export const unreadable = computed<Stored[]>(() => shown.value?.unreadable ?? []);

/** Once it has been read; of one that was only just begun here all is known. */
export const shownTrip = computed(() => {
  const { trip, read } = shown.value ?? {};
  return read || said().some(({ record, kind }) => kind === "trip" && record === trip) ? trip : undefined;
});

export const unread = () => tell({ kind: "unopened", name: "log" });

/** Brings a trip on screen. */
export async function show(wanted: string): Promise<void> {
  const trip = rootOf(wanted);
  if (shown.value?.trip === trip) return;
  shown.value = { trip, parts: [trip], records: Records.none, unreadable: [], read: false };
  await refresh().catch(unread);
  // Where it could not be, the page all the same says what it is, and has its way back.
  if (shown.value?.trip === trip && !shown.value.read) shown.value = { ...shown.value, read: true };
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
    // Many are a task each to read, to fold and to draw: taps go between.
    if (entries) await soon();
    const is = of && entries && whatIs(of, entries);
    if (is) await soon();
    batch(() => {
      lookAnew();
      known.value = trips;
      standing.value = now;
      // Whoever asks what this phone may is shown anew only where that is something else.
      if (!same(you.value, who)) you.value = who;
      current.value ??= last;
      const on = shown.value;
      if (on && on.trip === before?.trip) {
        if (is) shown.value = is;
        else if (fresh) shown.value = withPut(on, fresh.entries);
      } else if (!on && is && running.value?.trip === is.trip) shown.value = is;
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
  read: true,
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

/** From now on this phone notes in this trip. */
export function noteIn(trip: string): void {
  current.value = trip;
  book.setMeta("current", trip).catch(() => tell({ kind: "unsaved", name: "log", full: false }));
}
