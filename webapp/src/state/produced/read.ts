/** The season that is asked about: read from the log when somebody looks, and asked of the desk. */
import { batch, computed, effect, signal } from "@preact/signals";
import { Died, desk, Refused } from "../../base/desk/desk";
import type { Answer, Of } from "../../base/desk/types/produced.gen";
import { painted, soon } from "../../base/shell/soon";
import { foldAll } from "../entry/fold";
import { book, running, summaries } from "../log/log";
import type { Trip } from "../log/one";
import { written } from "../log/saying/writing";
import { asked, pay } from "./asked";
import { effortOf, telling } from "./effort";
import type { FactorName } from "./factors";
import { keepLast, lastRead } from "./last";
import { type Outing, queryOf } from "./season";
import { lightOf, tidesOf } from "./water";

export interface Wanted {
  of: Of;
  factor: FactorName;
  /** Looked at together with it; undefined: none. */
  beside: FactorName | undefined;
  /** Year and ground of the trips; undefined: all. */
  year: number | undefined;
  ground: string | undefined;
}

export const wanted = signal<Wanted>({
  of: "strikes",
  factor: "lure",
  beside: undefined,
  year: undefined,
  ground: undefined,
});

/** All trips with their effort, or the latest that are read so far; undefined: none is read yet. */
export const outings = signal<Outing[] | undefined>(undefined);
/** How many trips there are to read; undefined: all are read. */
const toRead = signal<number | undefined>(undefined);

export interface Read {
  answer: Answer;
  /** The factors' levels by name, in the order of the answer's places. */
  names: string[][];
  /** Light and tide are in it; without, nothing is to be compared. */
  whole: boolean;
  /** Only so many trips are in it so far, the latest, of so many. */
  part?: { read: number; of: number } | undefined;
  of: Of;
  question: string;
  /** When, ms since 1970. */
  at: number;
}

export const season = signal<Read | undefined>(undefined);
/** What is shown is of an earlier reading, and there will be a new one. */
export const reading = signal(false);
/** The desk could not answer. */
export const failed = signal(false);

export const yearOf = ({ opened }: Outing): number => new Date(opened).getFullYear();

export const chosen = computed<Outing[]>(() => {
  const { year, ground } = wanted.value;
  return (outings.value ?? []).filter(
    (one) => (year === undefined || yearOf(one) === year) && (ground === undefined || one.ground === ground),
  );
});

const endOf = (trip: Trip): number =>
  trip.closed ?? (running.value?.trip === trip.trip ? Date.now() : trip.last);

/** How many pages show it. */
let looking = 0;
let turn = 0;
/** The question that was asked last, until it is answered. */
let asking: Promise<void> | undefined;

/** What has been read is shown when it is this many times as much as what was shown. */
const more = 8;

/**
 * Reads the log, a trip at a time, so that no tap waits for all. The first picture waits for the latest trip alone, and
 * light and tide come after all trips.
 */
async function readSeason(): Promise<void> {
  turn++;
  const own = turn;
  const trips = (summaries.peek() ?? []).filter(({ struck }) => !struck);
  const read: Outing[] = [];
  let next = 1;
  for (const trip of trips.sort((a, b) => b.opened - a.opened)) {
    const entries = (await book.entriesOf(trip.parts)).filter(({ kind }) => telling.includes(kind));
    // Another reading has begun since.
    if (own !== turn) return;
    const effort = effortOf(foldAll(entries), endOf(trip));
    read.push({ trip: trip.trip, ground: trip.ground, opened: trip.opened, effort });
    // Part of a season takes the place of none.
    if (!season.peek()?.whole && read.length >= next && read.length < trips.length && read.some(tells)) {
      next = more * read.length;
      batch(() => {
        toRead.value = trips.length;
        outings.value = [...read];
      });
      // What is read meanwhile would only keep the picture waiting.
      await asking;
      if (own !== turn) return;
    }
    await soon();
  }
  if (own !== turn) return;
  batch(() => {
    toRead.value = undefined;
    outings.value = read;
  });
  const lights = await Promise.all(read.map(({ effort }) => lightOf(effort)));
  const tides = await tidesOf(read.map(({ effort }) => effort));
  // Another reading may have come since.
  if (outings.value === read)
    outings.value = read.map((one, i) => ({ ...one, light: lights[i] ?? [], tide: tides[i] ?? [] }));
}

const tells = ({ effort }: Outing): boolean => effort.outs.length > 0 || effort.strikes.length > 0;

/** All trips are read, and none has anything to tell. */
export const empty = computed<boolean>(
  () => toRead.value === undefined && outings.value !== undefined && !outings.value.some(tells),
);

const questionOf = ({ of, factor, beside, year, ground }: Wanted): string =>
  [of, beside && [factor, beside].sort().join(), year, ground].join("|");

async function ask(): Promise<void> {
  const { of, factor, beside } = wanted.value;
  const some = chosen.value;
  const part =
    toRead.value === undefined ? undefined : { read: outings.value?.length ?? 0, of: toRead.value };
  const whole = !part && some.every(({ light }) => light !== undefined);
  const question = questionOf(wanted.value);
  // Half of an answer takes the place of none.
  const shown = season.peek();
  if (!whole && shown?.whole && shown.question === question) return;
  if (part && !some.some(tells)) return;
  const query = queryOf(some, {
    of,
    pair: beside && beside !== factor ? [factor, beside] : undefined,
    looks: pay(whole ? question : undefined),
  });
  try {
    const answer = await desk.newest("produced", query);
    if (!answer) return;
    batch(() => {
      failed.value = false;
      season.value = {
        answer,
        names: [...query.boat, ...query.rod].map(({ levels }) => levels.map(({ name }) => name)),
        whole,
        part,
        of,
        question,
        at: Date.now(),
      };
      if (whole) reading.value = false;
    });
    if (whole && season.value) await keepLast(season.value).catch(() => undefined); // there is one less picture at once
  } catch (fault) {
    if (!(fault instanceof Refused || fault instanceof Died)) throw fault;
    failed.value = true;
  }
}

/** There is a picture, if there is one that was kept. */
async function shown(): Promise<void> {
  if (season.peek()?.whole) return;
  const last = await lastRead(questionOf(wanted.peek())).catch(() => undefined); // then it is read as for the first time
  if (last && !season.peek()?.whole) season.value = last;
}

/** Keeps the season read while somebody looks; what it returns ends that. */
export function followSeason(): () => void {
  looking++;
  reading.value = true;
  let end: (() => void) | undefined = () => undefined;
  // To read the log takes long, and the picture would wait for a part of it.
  shown()
    .then(painted)
    .then(() => {
      if (end) end = follow();
    });
  return () => {
    end?.();
    end = undefined;
    looking--;
  };
}

/** Reads it anew whenever there is more, and asks whenever something else is wanted. */
function follow(): () => void {
  const reads = effect(() => {
    written.value;
    if (summaries.value) readSeason().catch(() => (failed.value = true));
  });
  const asks = effect(() => {
    if (outings.value && wanted.value) asking = ask();
  });
  return () => {
    reads();
    asks();
  };
}

/** Reads it for whoever looks next, where nobody does now; not anew: only where no picture of it was kept. */
export async function prepare(anew: boolean): Promise<void> {
  if (looking > 0 || (!anew && (await lastRead(questionOf(wanted.peek()))))) return;
  await Promise.all([readSeason(), asked.loaded()]);
  await ask();
}
