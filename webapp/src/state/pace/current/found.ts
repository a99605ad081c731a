/** The current that was found last, kept on this phone with when that was: tide turns. */
import { type Current, type Found, limits } from "../../../base/desk/types/current.gen";
import { Kept } from "../../../base/store/kept";
import { number, oneOf, orNone, record, within } from "../../../base/store/shape";

export interface KnownCurrent {
  set: number;
  drift: number;
  doubtEast: number;
  doubtNorth: number;
  tied: number;
  quality: "rough" | "good";
  /** ms, by the wall clock: it is to outlive the app. */
  at: number;
}

const of = limits.Current;

export const knownCurrent = new Kept<KnownCurrent | null>(
  "current",
  orNone(
    record<KnownCurrent>({
      set: within(of.set),
      drift: within(of.drift),
      doubtEast: within(of.doubtEast),
      doubtNorth: within(of.doubtNorth),
      tied: within(of.tied),
      quality: oneOf("rough", "good"),
      at: number,
    }),
  ),
  null,
);

export function keepCurrent({ current }: Found, quality: "rough" | "good"): void {
  const { set, drift, doubtEast, doubtNorth, tied } = current;
  knownCurrent.set({ set, drift, doubtEast, doubtNorth, tied, quality, at: Date.now() });
}

/** Age of it in s. A clock set back since then tells nothing: then it is taken for as old as can be. */
export function ageOf({ at }: KnownCurrent): number {
  const age = (Date.now() - at) / 1000;
  return age < 0 ? of.age.max : Math.min(age, of.age.max);
}

/** As the desk takes it. */
export function currentNow(): Current | undefined {
  const known = knownCurrent.value;
  if (!known) return undefined;
  const { quality: _, at: __, ...current } = known;
  return { ...current, age: ageOf(known) };
}
