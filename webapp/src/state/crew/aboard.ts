/** How many are aboard, the skipper counted, and how many of them fish: asked once a trip, for radio, plan and bag. */
import { computed } from "@preact/signals";
import { Kept } from "../../base/store/kept";
import { number, record } from "../../base/store/shape";
import { type Folded, number as numberOf } from "../entry/fold";
import { running } from "../log/log";
import { amend } from "../log/saying/say";
import { boat } from "./boat";
import { mayChange } from "./role";
import { peopleAboard, tripRecords } from "./trip";

export interface Heads {
  /** 0: not told. */
  aboard: number;
  fishing: number;
}

interface Told extends Heads {
  /** When it was told, ms since 1970. */
  at: number;
}

export const keptHeads = new Kept<Told>(
  "heads",
  record<Told>({ aboard: number, fishing: number, at: number }),
  { aboard: 0, fishing: 0, at: 0 },
);

export const mostAboard = 100;

/** So long after it was told it is of another outing, ms. */
const lasting = 18 * 3600_000;

const tripRecord = (): Folded | undefined =>
  tripRecords("trip")?.find((one) => one.id === running.value?.trip);

const headcount = (count: number | undefined): number =>
  count !== undefined && count >= 0 && count <= mostAboard ? Math.round(count) : 0;

/** What was told of this trip, or of today where none runs. */
export const heads = computed<Heads>(() => {
  const trip = tripRecord();
  const own = Date.now() - keptHeads.value.at < lasting ? keptHeads.value : { aboard: 0, fishing: 0 };
  return {
    aboard: headcount(trip && numberOf(trip, "aboard")) || own.aboard,
    fishing: headcount(trip && numberOf(trip, "fishing")) || own.fishing,
  };
});

export function setHeads(patch: Partial<Heads>): void {
  keptHeads.set({ ...heads.value, ...patch, at: Date.now() });
  const trip = tripRecord();
  if (trip && mayChange()) amend(trip, patch);
}

/** For the radio: as told; else as many as are named, or usual. A skipper seldom names himself: it is to be asked. */
export const aboardNow = (): { count: number; sure: boolean } =>
  heads.value.aboard > 0
    ? { count: heads.value.aboard, sure: true }
    : { count: Math.max(peopleAboard().length, headcount(boat.value.people)), sure: false };
