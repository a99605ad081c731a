/** How well each number behind a depth is known, kept on this phone: the doubts that make the ±. */
import { computed, signal } from "@preact/signals";
import { type Doubt, limits } from "../../base/desk/types/towline.gen";
import { Kept } from "../../base/store/kept";
import { record, type Shape, within } from "../../base/store/shape";

export type Doubts = Required<Doubt>;

const of = limits.Doubt;

export const doubtNames = Object.keys(of) as (keyof Doubts)[];

const each = <T>(make: (name: keyof Doubts) => T) =>
  Object.fromEntries(doubtNames.map((name) => [name, make(name)])) as { [K in keyof Doubts]: T };

/** As first set: the desk's own judgements. */
export const firstDoubt: Doubts = each((name) => of[name].default);

/** What two of them were first set to before the drags were taken from published data. */
const earlier = { lineDrag: 0.2, lureDrag: 0.35 };

const nine = record<Doubts>(each((name) => within(of[name])));

/** What an app of then stored is not marked: where nobody had changed them, the new first ones count. */
const shape: Shape<Doubts> = (raw, spoilt) => {
  const read = nine(raw, spoilt);
  if ((raw as { published?: boolean }).published) return read;
  for (const name of ["lineDrag", "lureDrag"] as const)
    if (same(read[name], earlier[name])) read[name] = firstDoubt[name];
  return read;
};

export const doubt = new Kept<Doubts>("doubt", shape, firstDoubt, (value) => ({ ...value, published: true }));

/** What Pace knows of the speed's doubt while Lines takes its speed from there, m/s; undefined while it does not. */
export const speedDoubt = signal<number | undefined>(undefined);

/** The doubts that count now. */
export const doubtNow = computed<Doubts>(() => {
  const speed = speedDoubt.value;
  return speed === undefined ? doubt.value : { ...doubt.value, speed };
});

/** Equal, but for rounding when units are converted there and back. */
const same = (a: number, b: number): boolean => Math.abs(a - b) < 1e-9;

export const isFirst = (name: keyof Doubts, value: number): boolean => same(value, firstDoubt[name]);
