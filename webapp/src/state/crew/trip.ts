/** The running trip as the crew's pages need it: with all its records at hand, or not at all. */
import { type Folded, words } from "../entry/fold";
import { recordOf, ofKind as records, running, shownTrip, summaries } from "../log/log";
import { eachOnce } from "../log/names";

/** Records of a kind of the running trip; none without a trip; undefined while they are being read. */
export function tripRecords(kind: string): Folded[] | undefined {
  if (!summaries.value) return undefined;
  const trip = running.value?.trip;
  if (!trip) return [];
  // A trip always has a record of its own: before that one is there, the others are not either.
  const read = shownTrip.value === trip && recordOf(trip) !== undefined;
  return read ? records(kind) : undefined;
}

const ofKind = (kind: string): Folded[] => tripRecords(kind)?.filter((record) => !record.struck) ?? [];

/** First names or nicknames of those aboard, as the trip has them. */
export const peopleAboard = (): string[] => eachOnce(ofKind("person").map((one) => words(one, "name") ?? ""));

/** Where the trip goes, if it says so. */
export const groundOfTrip = (): string =>
  ofKind("trip").flatMap((one) => words(one, "ground") ?? [])[0] ?? "";
