/** The boat's latest velocities over ground, as the receiver told them. */
import { effect, signal } from "@preact/signals";
import { type Fix, lastFix } from "./position";

export interface Velocity {
  /** ms, on the running clock. */
  at: number;
  /** m/s and radians from true north. */
  speed: number;
  course: number;
  /** m, of the position. */
  accuracy: number;
}

/** How much of the past is held, in ms, and of how many fixes at most. */
const held = 1200_000;
const most = 1500;

export const track = signal<Velocity[]>([]);

/** Slower than this a receiver tells no course, and none is needed. */
const standing = 0.3;

/** Collects every fix from now on. */
export function keepTrack(): void {
  effect(() => {
    const last = lastFix.value;
    const velocity = last && velocityOf(last.fix);
    if (!last || !velocity) return;
    const at = last.at.run;
    const before = track.peek().filter((one) => at - one.at < held);
    track.value = [...before, { at, ...velocity, accuracy: last.fix.accuracy }].slice(-most);
  });
}

/** Undefined where the receiver does not tell one: the difference of two positions is far too rough for it. */
function velocityOf({ sog, cog }: Fix): { speed: number; course: number } | undefined {
  if (sog === undefined || (cog === undefined && sog >= standing)) return undefined;
  return cog === undefined ? { speed: 0, course: 0 } : { speed: sog, course: cog };
}
