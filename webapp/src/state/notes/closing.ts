/** A trip is closed for everybody aboard: each phone that noted in it is told once, with the way back. */
import { computed } from "@preact/signals";
import { Kept } from "../../base/store/kept";
import { number, record, words } from "../../base/store/shape";
import { noted, running } from "../log/log";

/** The closing that somebody has read of here, by trip and time. */
export const heardOf = new Kept<{ trip: string; closed: number }>(
  "closing heard of",
  record({ trip: words, closed: number }),
  { trip: "", closed: 0 },
);

/** The trip that this phone noted in and that another one has closed, until somebody has read of it here. */
export const closedTrip = computed(() => {
  const trip = noted.value;
  if (!trip || running.value || trip.closed === null || trip.closedBy === null) return undefined;
  const { trip: heard, closed } = heardOf.value;
  return heard === trip.trip && closed === trip.closed ? undefined : trip;
});
