/**
 * What somebody knows of a line without a touch: a setting known from before, the angle of the wire, where it enters the
 * water, its pull. It counts beside the touches. Kept on this phone until it is noted in a trip (share.ts).
 */
import type { Kind, Observation } from "../../base/desk/types/calibrate.gen";
import { limits } from "../../base/desk/types/calibrate.gen";
import { limits as line } from "../../base/desk/types/towline.gen";
import { newId } from "../../base/store/id";
import { Kept } from "../../base/store/kept";
import { list, number, oneOf, record, within, words } from "../../base/store/shape";
import { type Gear, gear, pick } from "../gear/gear";
import { bareRod, kindsOn } from "../spread/request";
import type { Rod } from "../spread/spread";
import { properties } from "../spread/water";

export const readings = ["known", "angle", "entry", "pull"] as const satisfies Kind[];
export type Reading = (typeof readings)[number];

export interface Taught {
  id: string;
  kind: Reading;
  /** When it was so, by this phone's clock, ms. */
  at: number;
  /** The rod as it was set then: place and rig by id, m, kg. */
  place: string;
  rig: string;
  lineOut: number;
  drail: number;
  sinker: number;
  /** Through the water, m/s, and its doubt. */
  speed: number;
  speedDoubt: number;
  /** What was read: the depth of water where it ticks in m, rad, m, N; and one standard deviation of it. */
  reading: number;
  doubt: number;
}

const of = limits.Observation;
/** More than anybody will type; what is beyond is put aside as it was. */
const most = 1000;

export const taught = new Kept<Taught[]>(
  "taught",
  list(
    record<Taught>({
      id: words,
      kind: oneOf(...readings),
      at: number,
      place: words,
      rig: words,
      lineOut: within(line.Rod.lineOut),
      drail: number,
      sinker: number,
      speed: within(line.Sea.speed),
      speedDoubt: within(of.speedDoubt),
      reading: number,
      doubt: within(of.readingDoubt),
    }),
    most,
  ),
  [],
);

export function teach(one: Omit<Taught, "id">): Taught {
  const known = { ...one, id: newId() };
  taught.set([known, ...taught.value]);
  return known;
}

/** As calibration takes it; undefined where its rig is not aboard any more. */
export function seenOf(one: Taught, g: Gear = gear.value): Omit<Observation, "age"> | undefined {
  const rig = g.rigs.find(({ id }) => id === one.rig);
  if (!rig) return undefined;
  const { kind, place, lineOut, drail, sinker, reading, doubt, speed, speedDoubt } = one;
  const rod: Rod = { id: "", place, rig: rig.id, lineOut, drail, sinker, planned: null };
  const water = properties.value;
  return {
    kind,
    sea: {
      speed,
      ...(kind === "known" && { bottom: reading }),
      ...(water && { water: { density: water.density, viscosity: water.viscosity } }),
    },
    rod: bareRod(g, rod),
    ...kindsOn(g, pick(g.rigs, rig.id)),
    ...(kind !== "known" && { [kind]: reading }),
    readingDoubt: doubt,
    speedDoubt,
  };
}
