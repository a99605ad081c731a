/** The season that is asked about: read from the log when somebody looks, and asked of the desk. */
import { batch, computed, effect, signal } from "@preact/signals";
import { Died, desk, Refused } from "../../base/desk/desk";
import type { Answer, Of } from "../../base/desk/types/produced.gen";
import { foldAll } from "../entry/fold";
import { book, rootOf, running, summaries, written } from "../log/log";
import type { Trip } from "../log/one";
import { pay } from "./asked";
import { effortOf, telling } from "./effort";
import type { FactorName } from "./factors";
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

/** All trips with their effort; undefined: not read yet. */
export const outings = signal<Outing[] | undefined>(undefined);

export interface Read {
  answer: Answer;
  /** The factors' levels by name, in the order of the answer's places. */
  names: string[][];
  /** Light and tide are in it; without, nothing is to be compared. */
  whole: boolean;
  of: Of;
}

export const season = signal<Read | undefined>(undefined);
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

/** Reads the log. Light and tide come after it, so that the first picture need not wait for them. */
export async function readSeason(): Promise<void> {
  const trips = (summaries.value ?? []).filter(({ struck }) => !struck);
  const entries = await book.entriesOfKinds(telling);
  const byTrip = new Map<string, typeof entries>();
  for (const entry of entries) {
    const root = rootOf(entry.trip);
    const some = byTrip.get(root);
    if (some) some.push(entry);
    else byTrip.set(root, [entry]);
  }
  const read = trips
    .map((trip): Outing => {
      const effort = effortOf(foldAll(byTrip.get(trip.trip) ?? []), endOf(trip));
      return { trip: trip.trip, ground: trip.ground, opened: trip.opened, effort };
    })
    .sort((a, b) => a.opened - b.opened);
  outings.value = read;
  const lights = await Promise.all(read.map(({ effort }) => lightOf(effort)));
  const tides = await tidesOf(read.map(({ effort }) => effort));
  // Another reading may have come since.
  if (outings.value === read)
    outings.value = read.map((one, i) => ({ ...one, light: lights[i] ?? [], tide: tides[i] ?? [] }));
}

async function ask(): Promise<void> {
  const { of, factor, beside, year, ground } = wanted.value;
  const some = chosen.value;
  const whole = some.every(({ light }) => light !== undefined);
  const question = [of, beside && [factor, beside].sort().join(), year, ground].join("|");
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
        of,
      };
    });
  } catch (fault) {
    if (!(fault instanceof Refused || fault instanceof Died)) throw fault;
    failed.value = true;
  }
}

/** Keeps the season read while somebody looks; what it returns ends that. */
export function followSeason(): () => void {
  const reading = effect(() => {
    written.value;
    if (summaries.value) readSeason().catch(() => (failed.value = true));
  });
  const asking = effect(() => {
    if (outings.value && wanted.value) ask();
  });
  return () => {
    reading();
    asking();
  };
}
