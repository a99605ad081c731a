/**
 * What one notch of the throttle does to the speed, learned from this boat: the speed before the tap, and that after
 * the boat has settled. Kept on this phone.
 */
import { signal } from "@preact/signals";
import { limits } from "../../base/desk/types/current.gen";
import { Kept } from "../../base/store/kept";
import { list, within } from "../../base/store/shape";
import { holds, motion } from "./motion";

const of = limits.Throttle.notches;

export const notches = new Kept<number[]>("notches", list(within(of), of.most), []);

/** The speed before the notch that is being watched. */
export const watching = signal<{ before: number } | undefined>(undefined);

/** An open boat has settled after so many ms: common practice, no source. */
const settles = 20_000;

/** Somebody has moved the throttle by one notch: in a while, its effect is known. */
export function notched(): void {
  const now = motion.value;
  if (!now?.swing || !holds(now)) return;
  const mine = { before: now.speed };
  watching.value = mine;
  setTimeout(() => {
    if (watching.value !== mine) return;
    watching.value = undefined;
    const after = motion.value;
    if (after?.swing && holds(after)) learn(after.speed - mine.before);
  }, settles);
}

function learn(change: number): void {
  if (Math.abs(change) <= of.max) notches.set([...notches.value, change].slice(-of.most));
}
