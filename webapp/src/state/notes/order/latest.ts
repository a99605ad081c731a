/** Where a note stands among others. */
import { byBoat, isToCome } from "../../../base/phone/clock";
import type { Folded } from "../../entry/fold";
import { timeOf } from "../words";

/**
 * The time that a note stands at, ms since 1970. What is still to come stands last, not above all that is noted until then;
 * only what this phone itself notes while its clock is ahead stands where that is by the boat's.
 */
export function standsAt(record: Folded): number {
  const time = timeOf(record);
  if (!isToCome(time)) return time;
  const right = byBoat(time);
  return record.entries[0]?.own && !isToCome(right) ? right : 0;
}

/** The latest first. */
export const latestFirst = (a: Folded, b: Folded): number =>
  standsAt(b) - standsAt(a) || timeOf(b) - timeOf(a);
