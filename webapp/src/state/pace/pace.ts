/** Speed through the water, and what to do with the throttle. */
import { computed, effect, signal, untracked } from "@preact/signals";
import { Died, desk } from "../../base/desk/desk";
import type { ThrottleAnswer } from "../../base/desk/types/current.gen";
import { inSi } from "../../base/units/units";
import { thumb } from "../spread/solved";
import { wantedSpeeds } from "../spread/spread";
import { currentNow, knownCurrent } from "./current/found";
import { predicted, predictedNow } from "./current/predicted";
import { type Motion, motion } from "./motion";
import { notches } from "./notches";
import { paceSettings } from "./settings";
import { begun, pump } from "./spoon";
import { currentByWheel, wheel } from "./wheel";

export interface Wanted {
  low: number;
  high: number;
  from: "own" | "learned" | "begun" | "practice";
}

/** The band of speeds through the water that is wanted: one's own, what the spoon's marks say, these with practice, or practice alone. */
export const wanted = computed<Wanted | undefined>(() => {
  const own = paceSettings.value.wanted;
  if (own) return { ...own, from: "own" };
  const learned = pump.value?.answer.learned;
  if (learned && learned.high.mid > 0)
    return { low: learned.low.mid, high: learned.high.mid, from: "learned" };
  const first = begun(pump.value?.answer);
  if (first) return { low: first.low.mid, high: first.high.mid, from: "begun" };
  const practice = thumb.value;
  return practice && { low: practice.speedLow, high: practice.speedHigh, from: "practice" };
});

export interface Pace extends ThrottleAnswer {
  /** What it was worked out from. */
  motion: Motion;
  currentKnown: boolean;
  /** The boat's own wheel has a word in it. */
  byWheel: boolean;
}

/** A speed as it is read: in tenths of a knot. */
export const asRead = (speed: number): number => (Math.round((speed / inSi.kn) * 10) / 10) * inSi.kn;

export const pace = signal<Pace | undefined>(undefined);

/** Works out the pace anew with every change of what it depends on. */
export function keepPace(): void {
  effect(() => {
    const band = wanted.value;
    const known = wantedSpeeds.peek();
    if (band && (band.low !== known?.low || band.high !== known?.high))
      wantedSpeeds.value = { low: band.low, high: band.high };
  });
  effect(() => {
    const now = motion.value;
    const band = wanted.value;
    knownCurrent.signal.value;
    notches.signal.value;
    predicted.value;
    wheel.value;
    desk.restarts.value;
    if (now && band) untracked(() => workOut(now, band));
  });
}

async function workOut(now: Motion, { low, high }: Wanted): Promise<void> {
  const byWheel = currentByWheel();
  const current = byWheel ?? currentNow();
  // What is predicted is in it then.
  const tables = byWheel ? undefined : predictedNow();
  try {
    const answer = await desk.newest("throttle", {
      ...(current && { current }),
      ...(tables && { predicted: tables }),
      speed: now.speed,
      course: now.course ?? 0,
      ground: now.doubt,
      swing: now.swing?.by ?? 0,
      low,
      high,
      notches: notches.value,
    });
    if (answer)
      pace.value = {
        ...answer,
        motion: now,
        currentKnown: (current ?? tables) !== undefined,
        byWheel: byWheel !== undefined,
      };
  } catch (fault) {
    if (!(fault instanceof Died)) throw fault;
  }
}

/** What was found so long ago, s, is another by now: the tide turns. A judgement. */
const turned = 3600;

/** Where the water goes over ground, as well as it is known now, and how fast, up to so many m/s. */
export function streamNow(most: number): { set: number; drift: number } | undefined {
  const found = currentNow();
  const now = currentByWheel() ?? (found && found.age < turned ? found : predictedNow());
  return now && { set: now.set, drift: Math.min(now.drift, most) };
}
