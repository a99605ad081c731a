/** What a trip is called: its own name, or its day; where it goes; and what tells it from another of the same name. */

import { apart } from "../../base/text/apart";
import { text } from "../../base/text/text";
import { clock, day, moment } from "../../base/units/when";
import type { Summary } from "../log/disk/summary";
import { summaries } from "../log/log";

const t = text.notes;

/** Where it is told beside it when it was begun, and by whom. */
export const plainName = ({ name, ground, opened, first }: Summary): string =>
  first === null
    ? t.unreadableTrip
    : [name || t.tripOf(day(opened)), ground].filter(Boolean).map(apart).join(" · ");

/** Another phone's name, or this one. */
const begunBy = ({ who }: Summary): string => apart(who) || t.record.me;

export function tripName(trip: Summary): string {
  const name = plainName(trip);
  const alike = (summaries.value ?? []).some((one) => one.trip !== trip.trip && plainName(one) === name);
  return alike ? `${name} · ${clock(trip.opened)} · ${begunBy(trip)}` : name;
}

/** When it was begun, by whom, and of which boat. */
export const tripFacts = (trip: Summary): string =>
  [moment(trip.opened), begunBy(trip), apart(trip.boat)].filter(Boolean).join(" · ");
