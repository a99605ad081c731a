/** What time it is where this phone's own clock is known to be wrong. */
import { Kept } from "../store/kept";
import { number } from "../store/shape";

/** How far this phone's clock is ahead of the boat's server's, ms, as it was found last. */
export const clockAhead = new Kept<number>("clock ahead", number, 0);

/** Notes it, where it has changed by more than a minute: so much matters to nothing here. */
export function noteClock(ahead: number): void {
  if (Math.abs(ahead - clockAhead.value) > 60_000) clockAhead.fill(ahead);
}

/** So much later than now by the boat's clock, ms, no clock dates a note that is right. */
const doubtful = 10 * 60_000;

/** Whether a time is still to come by the boat's clock: then that of whoever noted it is ahead. */
export const isToCome = (time: number): boolean => time > Date.now() - clockAhead.signal.value + doubtful;

/** Whether a time is before the trip that it is noted in: then the clock of whoever noted it is behind, or the trip's ahead. */
export const isTooEarly = (time: number, begun: number | undefined): boolean =>
  begun !== undefined && time < begun - doubtful;

/** A time of this phone's by the boat's clock, as far as it is known how much that differs. */
export const boatTime = (time: number): number => time - clockAhead.signal.value;

/**
 * A time of this phone's by the boat's clock, if that is earlier: what others note is of now to a phone that is a day
 * ahead too. What this phone itself has noted is of its own clock: by the boat's a trip that it noted in alone would be over at
 * once where it is behind.
 */
export const byBoat = (time: number): number => time - Math.max(0, clockAhead.signal.value);

/** Now by the boat's clock, if that is later: what others note is of now to a phone that is a day behind too. */
export const latestNow = (): number => Date.now() - Math.min(0, clockAhead.signal.value);
