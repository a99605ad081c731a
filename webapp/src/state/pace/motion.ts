/** How the boat moves over ground: from the receiver, or as somebody typed it. */
import { computed, effect, signal, untracked } from "@preact/signals";
import { Died, desk } from "../../base/desk/desk";
import { limits, type Position, type Sample } from "../../base/desk/types/current.gen";
import { type Moment, since } from "../../base/position/moment";
import { lastFix } from "../../base/position/position";
import { type Spot, spots, track, type Velocity } from "../../base/position/track";
import { Kept } from "../../base/store/kept";
import { number, orNone, record } from "../../base/store/shape";
import { valueHeard } from "../instruments/heard";
import { paceSettings } from "./settings";

export interface Motion {
  /** m/s and rad; no course while the boat hardly moves. */
  speed: number;
  course?: number;
  /** One standard deviation of the velocity in each direction, m/s. */
  doubt: number;
  /** Between these it swung in the last half minute, by this standard deviation; absent of a typed speed, and of one reckoned. */
  swing?: { slow: number; fast: number; by: number };
  /** So many fixes are in the mean; absent of a typed speed. */
  fixes?: number;
  /** m, of the fix. */
  accuracy?: number;
  /** From positions alone, of a receiver that tells no speed: far more doubtful. */
  reckoned?: true;
  /** From the boat's own receiver: this phone's tells none. */
  heard?: true;
  at: Moment;
}

/** What somebody read off another instrument and typed; at is ms of the wall clock. */
export interface Typed {
  speed: number;
  course: number;
  at: number;
}

export const typed = new Kept<Typed | null>(
  "typed motion",
  orNone(record<Typed>({ speed: number, course: number, at: number })),
  null,
);

/** From fixes older than this, in ms, no speed is shown. */
export const lost = 10_000;
/** A typed speed holds longer, but not for ever. */
export const typedHolds = 1800_000;
/** How good a typed speed and course are, m/s: as the digits of another instrument. */
const typedDoubt = 0.1;
const swingOver = 30_000;
const radians = Math.PI / 180;

/** What the receiver told last. */
export const motionSeen = signal<Motion | undefined>(undefined);

/** How good the speed and course of the boat's own receiver are taken to be, m/s. */
const heardDoubt = 0.1;

/** Over ground as the boat's own receiver says it. */
const motionHeard = computed<Motion | undefined>(() => {
  const [speed, course] = [valueHeard("groundSpeed"), valueHeard("groundCourse")];
  if (!speed) return undefined;
  const ago = speed.age * 1000;
  const at = { wall: Date.now() - ago, run: performance.now() - ago };
  return { speed: speed.value, ...(course && { course: course.value }), doubt: heardDoubt, heard: true, at };
});

/** The last motion known, however old. */
export const motion = computed<Motion | undefined>(() => {
  const own = motionSeen.value;
  // What this phone has of its own counts before what it is told, and what it is told before what nobody knows.
  const fixed = own && !own.reckoned && since(own.at) < lost ? own : (motionHeard.value ?? own);
  const told = typed.value;
  if (!told) return fixed;
  const at = { wall: told.at, run: performance.now() - (Date.now() - told.at) };
  const typedNow: Motion = { speed: told.speed, course: told.course, doubt: typedDoubt, at };
  // Whoever types a speed knows it better than positions tell it.
  if (fixed?.reckoned && holds(typedNow)) return typedNow;
  return fixed && (told.at < fixed.at.wall || since(fixed.at) < lost) ? fixed : typedNow;
});

/** Whether it still tells anything of now. */
export const holds = (of: Motion): boolean =>
  since(of.at) < (of.swing || of.reckoned || of.heard ? lost : typedHolds);

/** The course over ground of now, rad; undefined: there is none, or nobody knows it. */
export const courseNow = (): number | undefined =>
  motion.value && holds(motion.value) ? motion.value.course : undefined;

/** How long, ms, positions may come before a speed should have been reckoned. */
const reckonedWithin = 20_000;

/** Why there is no speed though fixes come: how poor they are, in m; or it is being reckoned. */
export function awaited(): { poor: number } | "reckoning" | undefined {
  const last = lastFix.value;
  if (!last || since(last.at) >= lost) return undefined;
  const { accuracy } = last.fix;
  if (accuracy > limits.Motion.poorest.default) return { poor: accuracy };
  const good = spots.value.filter((one) => one.accuracy <= limits.Motion.poorest.default);
  const [first] = good;
  return first && last.at.run - first.at < reckonedWithin ? "reckoning" : undefined;
}

/** Velocities as the desk takes them, with times from the first. */
export function samplesOf(velocities: Velocity[]): Sample[] {
  const from = velocities[0]?.at ?? 0;
  return velocities.map(({ at, speed, course, accuracy, moved }) => ({
    // A fix that came late may belong before the first.
    time: Math.max(0, (at - from) / 1000),
    speed: Math.min(speed, 30),
    course,
    accuracy: Math.min(accuracy, 1e6),
    moved,
  }));
}

/** Positions as the desk takes them. */
function positionsOf(all: Spot[]): Position[] {
  const from = all[0]?.at ?? 0;
  return all.map(({ at, lat, lon, accuracy }) => ({
    time: (at - from) / 1000,
    lat: lat * radians,
    lon: lon * radians,
    accuracy: Math.min(accuracy, 1e6),
  }));
}

/** Works out the motion anew with every fix. */
export function keepMotion(): void {
  effect(() => {
    const all = track.value;
    const been = spots.value;
    const { window } = paceSettings.value;
    if (all.length + been.length > 0) untracked(() => workOut(all, been, window));
  });
}

async function workOut(all: Velocity[], been: Spot[], window: number): Promise<void> {
  const newest = all[all.length - 1];
  const now = Math.max(newest?.at ?? 0, been[been.length - 1]?.at ?? 0);
  const told = newest !== undefined && now - newest.at < lost;
  const last = lastFix.value?.at;
  const heard = told ? all.filter((one) => newest.at - one.at <= swingOver) : [];
  try {
    const answer = await desk.newest("motion", {
      samples: samplesOf(heard),
      ...(!told && { positions: positionsOf(been) }),
      window,
    });
    if (!answer || answer.used === 0 || !last) return;
    // What came after it and did not count makes it no younger.
    const counted = (told ? heard : been)[answer.newest];
    if (!counted) return;
    const { at: run, accuracy } = counted;
    const { speed, course, courseKnown, doubt, slow, fast, swing, reckoned, used } = answer;
    motionSeen.value = {
      speed,
      fixes: used,
      ...(courseKnown && { course }),
      doubt,
      ...(reckoned ? { reckoned } : { swing: { slow, fast, by: swing } }),
      accuracy,
      at: { wall: last.wall - (last.run - run), run },
    };
  } catch (fault) {
    if (!(fault instanceof Died)) throw fault;
  }
}
