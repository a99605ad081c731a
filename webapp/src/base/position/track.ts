/** The boat's latest velocities over ground, as the receiver told them; and where it was, for one that tells none. */
import { batch, effect, signal } from "@preact/signals";
import { type Fix, lastFix } from "./position";

export interface Velocity {
  /** ms, on the running clock. */
  at: number;
  /** m/s and radians from true north. */
  speed: number;
  course: number;
  /** m, of the position. */
  accuracy: number;
  /** The position is another than that of the fix before. */
  moved: boolean;
}

/** How much of the past is held, in ms, and of how many fixes at most. */
const held = 1200_000;
const most = 1500;

export const track = signal<Velocity[]>([]);

/** A fix, in degrees. */
export interface Spot {
  at: number;
  lat: number;
  lon: number;
  accuracy: number;
}

/** So many ms of them are held, and so many at most. */
const spotsHeld = 60_000;
const mostSpots = 120;

export const spots = signal<Spot[]>([]);

/** Slower than this a receiver tells no course, and none is needed. */
const standing = 0.3;

/** Collects every fix from now on. */
export function keepTrack(): void {
  effect(() => {
    const last = lastFix.value;
    if (!last) return;
    const at = last.at.run;
    const { lat, lon, accuracy } = last.fix;
    const been = spots.peek().filter((one) => at > one.at && at - one.at < spotsHeld);
    const velocity = velocityOf(last.fix);
    const left = been.at(-1);
    const moved = left !== undefined && (left.lat !== lat || left.lon !== lon);
    const before = track.peek().filter((one) => at - one.at < held);
    batch(() => {
      spots.value = [...been, { at, lat, lon, accuracy }].slice(-mostSpots);
      if (velocity) track.value = [...before, { at, ...velocity, accuracy, moved }].slice(-most);
    });
  });
}

/** Undefined where the receiver does not tell one: the difference of two positions alone is far too rough for it. */
function velocityOf({ sog, cog }: Fix): { speed: number; course: number } | undefined {
  if (sog === undefined || (cog === undefined && sog >= standing)) return undefined;
  return cog === undefined ? { speed: 0, course: 0 } : { speed: sog, course: cog };
}
