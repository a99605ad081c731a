/** How well each number behind a depth is known, kept on this phone: the doubts that make the ±. */
import { computed, signal } from "@preact/signals";
import { type Doubt, limits } from "../../base/desk/types/towline.gen";
import { Kept } from "../../base/store/kept";
import { record, within } from "../../base/store/shape";

export type Doubts = Required<Doubt>;

const of = limits.Doubt;

export const doubtNames = Object.keys(of) as (keyof Doubts)[];

const each = <T>(make: (name: keyof Doubts) => T) =>
  Object.fromEntries(doubtNames.map((name) => [name, make(name)])) as { [K in keyof Doubts]: T };

/** As first set: the desk's own judgements. */
export const firstDoubt: Doubts = each((name) => of[name].default);

export const doubt = new Kept<Doubts>("doubt", record<Doubts>(each((name) => within(of[name]))), firstDoubt);

/** What Pace knows of the speed's doubt while Lines takes its speed from there, m/s; undefined while it does not. */
export const speedDoubt = signal<number | undefined>(undefined);

/** The doubts that count now. */
export const doubtNow = computed<Doubts>(() => {
  const speed = speedDoubt.value;
  return speed === undefined ? doubt.value : { ...doubt.value, speed };
});

/** Equal, but for rounding when units are converted there and back. */
export const isFirst = (name: keyof Doubts, value: number): boolean =>
  Math.abs(value - firstDoubt[name]) < 1e-9;
