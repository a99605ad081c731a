/** The turn that is looked at: to which side, and how long 90° take. */
import { signal } from "@preact/signals";
import type { Side } from "../../base/desk/types/towline.gen";

/** Times for 90° in s, from wide to tight; the first is a straight course. */
export const quarters = [
  Number.POSITIVE_INFINITY,
  300,
  240,
  180,
  150,
  120,
  100,
  80,
  70,
  60,
  50,
  45,
  40,
  35,
  30,
  25,
  20,
  16,
  12,
] as const;

export const side = signal<Side>("port");
/** Index into quarters. */
export const tightness = signal(9);

export const quarterOf = (index: number): number => quarters[index] ?? Number.POSITIVE_INFINITY;

/** Radius of the boat's path at a speed, m; 0 for a straight course, as the desk has it. */
export function radiusOf(quarter: number, speed: number): number {
  return Number.isFinite(quarter) ? (speed * quarter) / (Math.PI / 2) : 0;
}

/** The tightest of the times that is no tighter than the one given. */
export const widerThan = (quarter: number): number => {
  const found = quarters.findLastIndex((time) => time >= quarter - 1e-6);
  return Math.max(found, 0);
};
