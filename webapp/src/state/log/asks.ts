/** What the crew is asked about trips: whether two are one, and whether one is over. */
import { computed } from "@preact/signals";
import { byBoat } from "../../base/phone/clock";
import { forgotten, isNow, looked, mayClose, openTrips } from "./log";
import type { Trip } from "./one";

/**
 * Two trips of one outing that are open, and of which nobody has said whether they are one: the earlier, and the later,
 * which would become a part of it. Every phone names them in the same order, however long ago it was.
 */
export const twoTrips = computed<[Trip, Trip] | undefined>(() => {
  if (!mayClose()) return undefined;
  const all = openTrips.value
    .filter((trip) => !trip.apart && trip.first !== null)
    .sort((a, b) => a.opened - b.opened || (a.trip < b.trip ? -1 : 1));
  for (const [i, first] of all.entries()) {
    const second = all[i + 1];
    if (second && Math.min(second.opened, byBoat(looked.value)) - first.last < forgotten)
      return [first, second];
  }
  return undefined;
});

/**
 * Trips that nobody has closed and nobody has noted in for long, the latest first: the crew is asked to close them, one
 * question after the other.
 */
export const unclosed = computed<Trip[]>(() =>
  mayClose() && !twoTrips.value ? openTrips.value.filter((trip) => trip.first !== null && !isNow(trip)) : [],
);
