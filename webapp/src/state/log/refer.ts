/** A record in an address: its trip and its id, and the record itself once its trip has been read. */
import { useEffect } from "preact/hooks";
import { href } from "../../base/shell/route";
import type { Folded } from "../entry/fold";
import { recordOf, rootOf, show, shownTrip } from "./log";

export const refer = ({ trip, id }: { trip: string; id: string }): string => `${trip}.${id}`;

export const recordHref = (record: Folded): string => href("notes", "record", refer(record));

/** The record; undefined while its trip is being read, null when there is none. */
export function useRecord(reference: string): Folded | undefined | null {
  const [trip = "", id] = reference.split(".");
  useTrip(trip);
  return recordOf(id) ?? (shownTrip.value === rootOf(trip) ? null : undefined);
}

/** Brings a trip on screen. */
export function useTrip(trip: string | undefined): void {
  // What was made a part of another trip is shown with it.
  const root = trip && rootOf(trip);
  useEffect(() => {
    if (root) show(root);
  }, [root]);
}
