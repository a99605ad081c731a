/** Looks ahead of the lures while the sounder is being read. */
import { computed, effect, signal, untracked } from "@preact/signals";
import { Died, desk, Refused } from "../../base/desk/desk";
import { type Answer, limits, type Query } from "../../base/desk/types/rise.gen";
import { gear } from "../gear/gear";
import { depthHeard } from "../instruments/heard";
import { pings } from "../instruments/pings";
import { taken } from "../instruments/taken";
import { coursesNow } from "../instruments/turning";
import { holds } from "../pace/motion";
import { pace, streamNow } from "../pace/pace";
import { doubtNow } from "../spread/doubt";
import { lessons } from "../spread/learned";
import { bottomFor, rodFor, seaFor, wantedFor } from "../spread/request";
import { type Spread, spread } from "../spread/spread";
import { properties } from "../spread/water";
import { forgotten, type Read, readNow, soundings } from "./soundings";
import { type Warning, warningOf } from "./warning";

/** Asked anew at least every so many ms: boat and time move on. */
const every = 3000;

interface Looked {
  answer: Answer;
  spread: Spread;
  /** When it was asked, ms of the wall clock: times in the answer count from then. */
  at: number;
}

export const looked = signal<Looked | undefined>(undefined);

/** Noted: nothing more is said of rises that are no shallower than this, until all have passed. */
const noted = signal<number | undefined>(undefined);

/** What it wants is told in the rows until it has passed, also once it was noted. */
export const rise = computed<Warning | undefined>(() => {
  const now = looked.value;
  // A bottom that follows the boat is not that where the lures are.
  return now && warningOf(now.answer, taken.value.depth && depthHeard.value ? Infinity : now.spread.bottom);
});

/** What is to be told now. */
export const warning = computed<Warning | undefined>(() => {
  const told = noted.value;
  return rise.value && (told === undefined || rise.value.depth < told - 0.3) ? rise.value : undefined;
});

/** Whether a lure touches there if nothing is done. */
export const touchesAhead = computed(() => warning.value?.rods.some(({ touches }) => touches) ?? false);

export function noteRise(): void {
  noted.value = rise.value?.depth;
}

/** Speed over ground: from Pace, else as set on Lines, which is through the water. */
export function overGround(): { speed: number; known: boolean } {
  const now = pace.value;
  const known = now !== undefined && holds(now.motion);
  const speed = known ? now.motion.speed : spread.value.speed;
  const { min, max } = limits.Query.overGround;
  return { speed: Math.min(Math.max(speed, min), max), known };
}

/** Where she went; what the current does is in her course over ground already. */
function gone(): Pick<Query, "courses" | "set" | "drift"> {
  const { courses, compass } = coursesNow() ?? {};
  return courses ? { courses, ...(compass && streamNow(limits.Query.drift.max)) } : {};
}

export const queryFor = (now: Spread, read: Read[], at: number): Query => ({
  sea: seaFor(now, properties.value),
  doubt: doubtNow.value,
  wanted: wantedFor(now),
  ...bottomFor(now),
  overGround: overGround().speed,
  ...gone(),
  soundings: sinceRead(read, at).filter(({ age }, i, all) => i === 0 || age > (all[i - 1]?.age ?? 0)),
  rods: now.rods.map((rod) => rodFor(gear.value, rod)),
});

/** How far the boat has gone since each was read: as the server counted, and where it did not, as fast as she goes now. */
function sinceRead(read: Read[], at: number): Query["soundings"] {
  const { speed } = overGround();
  let back = 0;
  let after: { at: number; run: number } = { at, run: -1 };
  return read.map(({ depth, at: then, run = -1 }) => {
    const counted = run >= 0 && after.run >= 0;
    back += Math.max(0, counted ? after.run - run : ((after.at - then) / 1000) * speed);
    after = { at: then, run };
    return { age: (at - then) / 1000, depth, back };
  });
}

export function keepLooking(): void {
  const beat = signal(0);
  const any = computed(() => soundings.signal.value.length + pings.value.length > 0);
  effect(() => {
    if (!any.value) return;
    const timer = setInterval(() => beat.value++, every);
    return () => clearInterval(timer);
  });
  effect(() => {
    beat.value;
    soundings.signal.value;
    forgotten.signal.value;
    const now = spread.value;
    lessons.signal.value;
    untracked(() => look(now));
  });
  effect(() => {
    if (!rise.value) noted.value = undefined;
  });
}

/** How often there was nothing left to look for: an answer from before that is of what is no more. */
let ended = 0;

const areSet = ({ rods }: Spread): boolean =>
  rods.every(({ id }) => spread.value.rods.some((rod) => rod.id === id));

async function look(now: Spread): Promise<void> {
  const at = Date.now();
  const read = readNow(at);
  if (now.allIn || read.length === 0 || now.rods.length === 0 || gear.value.rigs.length === 0) {
    ended++;
    looked.value = undefined;
    return;
  }
  const before = ended;
  try {
    const answer = await desk.newest("rise", queryFor(now, read, at));
    if (answer && ended === before && areSet(now)) looked.value = { answer, spread: now, at };
  } catch (fault) {
    if (fault instanceof Refused) looked.value = undefined;
    else if (!(fault instanceof Died)) throw fault;
  }
}

/** The depth of water where this rod's lure is now, as the boat's instruments told it; undefined: they told none there. */
export function depthOverLure(id: string): number | undefined {
  const now = looked.value;
  const [newest] = pings.value;
  if (!now || !newest || Date.now() - newest.at > every || Date.now() - now.at > 2 * every) return undefined;
  const coming = now.answer.rods[now.spread.rods.findIndex((rod) => rod.id === id)];
  return coming && !coming.trouble && coming.over > 0 ? coming.over : undefined;
}
