/** The turn that is looked at: to which side, and how long 90° take. */
import { computed, signal } from "@preact/signals";
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
/** How long 90° take in the turn that is looked at, s. */
export const quarter = signal(60);

/** Where the slider stops: at the times above, and at that of the turn that is looked at. */
export const stops = computed(() => [...new Set<number>([...quarters, quarter.value])].sort((a, b) => b - a));

/** Radius of the boat's path at a speed, m; 0 for a straight course, as the desk has it. */
export function radiusOf(quarter: number, speed: number): number {
  return Number.isFinite(quarter) ? (speed * quarter) / (Math.PI / 2) : 0;
}

/** A time that the bound allows, in whole seconds as one reads it. */
export const allowed = (least: number): number => Math.ceil(least - 1e-6);
