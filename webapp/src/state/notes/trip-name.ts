/** What a trip is called: its own name, or its day; where it goes; and what tells it from another of the same name. */

import { computed } from "@preact/signals";
import { apart } from "../../base/text/apart";
import { text } from "../../base/text/text";
import { clock, day, moment } from "../../base/units/when";
import type { Summary } from "../log/disk/summary";
import { summaries } from "../log/log";

const t = text.notes;

/** Of each trip as it is: there may be many, and to write a day takes time. */
const names = new WeakMap<Summary, string>();

/** Where it is told beside it when it was begun, and by whom. */
export function plainName(trip: Summary): string {
  const known = names.get(trip);
  if (known !== undefined) return known;
  const { name, ground, opened, first } = trip;
  const told =
    first === null
      ? t.unreadableTrip
      : [name || t.tripOf(day(opened)), ground].filter(Boolean).map(apart).join(" · ");
  names.set(trip, told);
  return told;
}

/** The trips of each name. */
const alike = computed(() => {
  const all = new Map<string, string[]>();
  for (const trip of summaries.value ?? []) {
    const others = all.get(plainName(trip));
    if (others) others.push(trip.trip);
    else all.set(plainName(trip), [trip.trip]);
  }
  return all;
});

/** Another phone's name, or this one. */
const begunBy = ({ who }: Summary): string => apart(who) || t.record.me;

export function tripName(trip: Summary): string {
  const name = plainName(trip);
  const hasOther = alike.value.get(name)?.some((id) => id !== trip.trip);
  return hasOther ? `${name} · ${clock(trip.opened)} · ${begunBy(trip)}` : name;
}

/** When it was begun, by whom, and of which boat. */
export const tripFacts = (trip: Summary): string =>
  [moment(trip.opened), begunBy(trip), apart(trip.boat)].filter(Boolean).join(" · ");
