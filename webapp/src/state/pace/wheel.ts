/**
 * The boat's own speed through the water, by its paddle wheel: what it reads wrong is learned together with the current,
 * and what both come to is the current that Pace goes by.
 */
import { computed, effect, signal, untracked } from "@preact/signals";
import { Died, desk, Refused } from "../../base/desk/desk";
import { type Current, limits, type WheelAnswer, type WheelSample } from "../../base/desk/types/current.gen";
import { track } from "../../base/position/track";
import { Kept } from "../../base/store/kept";
import { number, orNone, record, type Shape, within } from "../../base/store/shape";
import { heard, second, valueHeard } from "../instruments/heard";
import { taken } from "../instruments/taken";
import { currentNow } from "./current/found";
import { predictedNow } from "./current/predicted";

/** What is known of the wheel, and since when, ms of the wall clock. */
interface Kept_ {
  zero: number;
  factor: number;
  zeroDoubt: number;
  factorDoubt: number;
  tied: number;
  at: number;
}

const of = limits.WheelKnown;

const known = orNone(
  record<Kept_>({
    zero: within(of.zero),
    factor: within(of.factor),
    zeroDoubt: within(of.zeroDoubt),
    factorDoubt: within(of.factorDoubt),
    tied: within(of.tied),
    at: number,
  }),
);

/** An app before this one kept what rested on the current foretold, and did not mark it: that is not gone by. */
const shape: Shape<Kept_ | null> = (raw, spoilt) =>
  (raw as { alone?: boolean } | null)?.alone ? known(raw, spoilt) : null;

export const wheelKept = new Kept<Kept_ | null>(
  "wheel",
  shape,
  null,
  (kept) => kept && { ...kept, alone: true },
);

/** What was asked last of the wheel, and when it came, ms of the running clock. */
export const wheel = signal<{ answer: WheelAnswer; at: number } | undefined>(undefined);

/** Samples of so long, ms, are asked about together, a turn and the legs beside it; then what they taught is kept. */
const together = 300_000;
/** Asked anew so often, ms. */
const every = 2000;
/** A fix this old, ms, is not of the same moment. */
const apart = 1500;
/** An answer this old, ms, tells nothing of now. */
const holds = 6000;

let samples: (WheelSample & { at: number })[] = [];
let asked = Number.NEGATIVE_INFINITY;

/** The wheel's word counts now: it runs, is heard, and somebody has said that it may. */
export const wheelNow = computed(() => {
  second.value;
  const now = wheel.value;
  return now && taken.value.speed && valueHeard("waterSpeed") && performance.now() - now.at < holds
    ? now.answer
    : undefined;
});

/** The current by the wheel and the fixes together, as the desk takes it. */
export const currentByWheel = (): Current | undefined =>
  wheelNow.value?.state === "runs" ? wheelNow.value.current : undefined;

/** The velocity over ground of the same moment: the phone's own, or what the boat's receiver says. */
function overGround(at: number): { speed: number; course: number; accuracy: number } | undefined {
  const own = track.peek().at(-1);
  if (own && Math.abs(at - own.at) < apart) return own;
  const [speed, course] = [valueHeard("groundSpeed"), valueHeard("groundCourse")];
  return speed && course && { speed: speed.value, course: course.value, accuracy: 0 };
}

export function keepWheel(): void {
  effect(() => {
    const now = heard.value;
    const read = now && valueHeard("waterSpeed");
    if (read && taken.value.speed) untracked(() => note(read.value, now.at));
  });
}

function note(read: number, at: number): void {
  const ground = overGround(at);
  const before = samples.at(-1);
  if (!ground || (before && at - before.at < apart / 2)) return;
  const { speed, course, accuracy } = ground;
  const { max } = limits.WheelSample.speed;
  samples.push({
    at,
    time: 0,
    speed: Math.min(speed, max),
    course,
    accuracy: Math.min(accuracy, 1e6),
    wheel: Math.min(read, max),
  });
  if (performance.now() - asked >= every) ask();
}

async function ask(): Promise<void> {
  asked = performance.now();
  const [first] = samples;
  const last = samples.at(-1);
  if (!first || !last) return;
  const before = wheelKept.value;
  const current = currentNow();
  const predicted = predictedNow();
  const { at: since = 0, ...told } = before ?? {};
  try {
    const answer = await desk.newest("wheel", {
      samples: samples.map(({ at, ...one }) => ({ ...one, time: (at - first.at) / 1000 })),
      ...(before && {
        known: {
          ...(told as Omit<Kept_, "at">),
          age: Math.min(Math.max(0, Date.now() - since) / 1000, of.age.max),
        },
      }),
      ...(current && { current }),
      ...(predicted && { predicted }),
    });
    if (!answer) return;
    wheel.value = { answer, at: performance.now() };
    if (last.at - first.at >= together) finish(answer);
  } catch (fault) {
    if (fault instanceof Refused) samples = [];
    else if (!(fault instanceof Died)) throw fault;
  }
}

/** What the next samples begin with rests on these alone: what is known of the current counts then as well as now. */
function finish({ learned, keep }: WheelAnswer): void {
  samples = [];
  if (!learned) return;
  const { age: _, ...told } = keep;
  const kept = { ...told, at: Date.now() };
  const fits = (["zero", "factor", "zeroDoubt", "factorDoubt", "tied"] as const).every(
    (name) => kept[name] >= of[name].min && kept[name] <= of[name].max,
  );
  if (fits) wheelKept.set(kept);
}

/** Another wheel, or one that was cleaned: what was learned is forgotten. */
export function forgetWheel(): void {
  samples = [];
  wheelKept.set(null);
}
