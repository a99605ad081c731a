/**
 * Lines and the speed that Pace knows: Lines takes it when told to; else it tells when that speed brings a lure out
 * of the band.
 */
import { batch, computed, effect, signal, untracked } from "@preact/signals";
import { Died, desk, Refused } from "../../base/desk/desk";
import { limits, type Verdict } from "../../base/desk/types/towline.gen";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { about } from "../../base/units/show";
import { inSi } from "../../base/units/units";
import { gear } from "../gear/gear";
import { doubt, doubtNow, speedDoubt } from "../spread/doubt";
import { spreadFor } from "../spread/request";
import { answerFor, change, solved } from "../spread/solved";
import { type Spread, spread } from "../spread/spread";
import { properties } from "../spread/water";
import { holds } from "./motion";
import { asRead, type Pace, pace } from "./pace";
import { paceSettings, set } from "./settings";

/** Smaller changes of speed are not followed, and larger ones no more often than so many ms. */
const least = 0.05 * inSi.kn;
const every = 3000;
const doubtStep = 0.02;
/** How far a speed that was followed may be off, one standard deviation, once nothing tells it any more. A judgement. */
const held = 0.5 * inSi.kn;
/** A speed differs once it has been this far from the one set for so many ms. */
const apart = 0.15 * inSi.kn;
const stays = 8000;
/**
 * Nor does it differ while the speed set lies in the middle half of what the boat may be going: Lines may be as right as
 * Pace then. That half reaches so far into the band of nine in ten (0.674/1.645, quantiles of the normal law). A judgement.
 */
const middleHalf = 0.41;

const isOff = ({ water }: Pace, speed: number): boolean => {
  const reach = speed < water.mid ? water.mid - water.low : water.high - water.mid;
  return Math.abs(water.mid - speed) >= Math.max(apart, middleHalf * reach);
};

export interface OffBand {
  speed: number;
  currentKnown: boolean;
  /** By their number on screen. */
  rods: { number: number; verdict: Verdict }[];
}

/** Lures that ride in the band at the speed set on Lines, and off it at the speed of now. */
export const offBand = signal<OffBand | undefined>(undefined);

/** For following, the speed must be known through the water. */
const usable = (now: Pace | undefined): now is Pace => now !== undefined && holds(now.motion);

/** Fewer fixes than these Lines does not go by: one or two may be knots off. A judgement. */
const fewest = 3;
/** Nor by a speed that nine times in ten is off by up to more than this. A judgement. */
const widest = 1.3 * inSi.kn;

/** Why Lines does not go by the speed of now: too few fixes, or by how much it may be off, m/s. */
export type Unsure = "few fixes" | number;

function unsureOf({ water, motion: { fixes = fewest } }: Pace): Unsure | undefined {
  if (fixes < fewest) return "few fixes";
  const off = water.high - water.mid;
  return off > widest ? off : undefined;
}

/** While Lines follows Pace. */
export const unsure = computed<Unsure | undefined>(() => {
  const now = pace.value;
  return paceSettings.value.follow && usable(now) && now.currentKnown ? unsureOf(now) : undefined;
});

export function keepFollowing(): void {
  let followed = Number.NEGATIVE_INFINITY;
  let differs = Number.NaN;
  /** The speed set is one that was followed, in this run of the app or the one before. */
  let wasFollowed = paceSettings.value.follow;
  effect(() => {
    const now = pace.value;
    const { follow } = paceSettings.value;
    const { speed } = spread.value;
    if (follow) {
      differs = Number.NaN;
      offBand.value = undefined;
      const why = usable(now) && now.currentKnown ? unsureOf(now) : Number.POSITIVE_INFINITY;
      if (usable(now) && why === undefined) {
        if (performance.now() - followed < every) return;
        followed = performance.now();
        wasFollowed = true;
        untracked(() => take(now));
      } else if (wasFollowed && why !== "few fixes")
        untracked(() => {
          speedDoubt.value = Math.max(doubtNow.value.speed, held);
        });
      return;
    }
    wasFollowed = false;
    if (!usable(now)) {
      offBand.value = undefined;
      return;
    }
    if (!isOff(now, speed)) {
      differs = Number.NaN;
      offBand.value = undefined;
      return;
    }
    if (Number.isNaN(differs)) differs = performance.now();
    if (performance.now() - differs >= stays) untracked(() => look(now));
  });
  effect(() => {
    if (!paceSettings.value.follow) speedDoubt.value = undefined;
  });
}

/** Sets Lines to the speed of now, with the doubt of it and of its swing. */
function take(now: Pace): void {
  batch(() => {
    // In steps, so that Lines is not solved anew for nothing.
    speedDoubt.value = Math.min(Math.round(now.doubt / doubtStep) * doubtStep, limits.Doubt.speed.max);
    const speed = Math.min(now.water.mid, limits.Sea.speed.max);
    if (Math.abs(speed - spread.value.speed) >= least) change({ speed: asRead(speed) });
  });
}

let looking = false;

/** Asks where the lures ride at the speed of now. */
async function look(now: Pace): Promise<void> {
  if (looking) return;
  looking = true;
  try {
    const at: Spread = { ...spread.value, speed: asRead(now.water.mid) };
    const answer = await desk.ask("spread", spreadFor(gear.value, at, properties.value, doubt.value));
    const rods = at.rods.flatMap((rod, i) => {
      const then = answer.rods[i];
      const here = answerFor(solved.value, rod);
      if (!then || then.trouble || then.verdict === "in the band" || here?.verdict === then.verdict)
        return [];
      return [{ number: i + 1, verdict: then.verdict }];
    });
    offBand.value = rods.length > 0 ? { speed: at.speed, currentKnown: now.currentKnown, rods } : undefined;
  } catch (fault) {
    if (!(fault instanceof Died || fault instanceof Refused)) throw fault;
  } finally {
    looking = false;
  }
}

/** Takes the speed told of, once. */
export function takeOnce({ speed }: OffBand): void {
  const before = spread.value.speed;
  change({ speed });
  offBand.value = undefined;
  offerUndo(text.lines.speed.taken(about("speed", speed, 0.1)), () => change({ speed: before }));
}

export function follow(): void {
  const before = spread.value.speed;
  set({ follow: true });
  offerUndo(text.lines.speed.follows, () => {
    set({ follow: false });
    change({ speed: before });
  });
}

/** A speed set by hand ends it. */
export function setByHand(): void {
  if (!paceSettings.value.follow) return;
  set({ follow: false });
  offerUndo(text.lines.speed.byHand, () => set({ follow: true }));
}
