/** The trips that a guest can be let into. */
import { computed } from "@preact/signals";
import { text } from "../../../base/text/text";
import { openTrips, summaries } from "../../../state/log/log";
import type { Trip } from "../../../state/log/one";
import { tripName } from "../../../state/notes/trip-name";

/** Those that are open, and the last that was closed: one of its guests may still have notes of it. */
export const guestTrips = computed<Trip[]>(() => {
  const over = summaries.value?.find(
    ({ closed, struck, first }) => closed !== null && !struck && first !== null,
  );
  return over ? [...openTrips.value, over] : openTrips.value;
});

export const guestTripName = (trip: Trip): string =>
  trip.closed === null ? tripName(trip) : `${tripName(trip)} · ${text.notes.fields.closed?.toLowerCase()}`;
