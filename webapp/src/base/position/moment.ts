/**
 * A moment, and how long ago it was. A phone's running clock may stand still while it sleeps, and its wall clock may
 * be set back: the longer of the two spans is never too short.
 */
export interface Moment {
  wall: number;
  run: number;
}

export const now = (): Moment => ({ wall: Date.now(), run: performance.now() });

/** ms since then. */
export const since = (then: Moment): number =>
  Math.max(Date.now() - then.wall, performance.now() - then.run, 0);
