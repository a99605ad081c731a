/**
 * What somebody knows of a line without a touch: a setting known from before, the angle of the wire, where it enters the
 * water, its pull. It counts beside the touches. Kept on this phone until it is noted in a trip (share.ts).
 */
import type { Kind, Observation } from "../../base/desk/types/calibrate.gen";
import { limits } from "../../base/desk/types/calibrate.gen";
import type * as desk from "../../base/desk/types/towline.gen";
import { limits as line } from "../../base/desk/types/towline.gen";
import { newId } from "../../base/store/id";
import { Kept } from "../../base/store/kept";
import { list, Misshapen, number, oneOf, orNone, record, within, words } from "../../base/store/shape";
import { type Gear, gear } from "../gear/gear";
import type { Kinds } from "../spread/learned";
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
  /** How it was rigged then: another spoon on the reel changes nothing of what was. null as an earlier app taught it. */
  rigged: Rigged | null;
}

/** As the desk is asked with it. */
interface Rigged extends Kinds {
  rod: desk.Rod;
}

/** What another hand made of a rod, the desk will tell. */
const anyRod = (raw: unknown): desk.Rod => {
  if (typeof raw !== "object" || raw === null) throw new Misshapen("no rod");
  return raw as desk.Rod;
};

const of = limits.Observation;
/** More than anybody will type; what is beyond is put aside as it was. */
const most = 1000;

export const taught = new Kept<Taught[]>(
  "taught",
  list(
    record<Taught>(
      {
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
        rigged: orNone(record<Rigged>({ rod: anyRod, wire: words, lure: words })),
      },
      { rigged: null },
    ),
    most,
  ),
  [],
);

export function teach(one: Omit<Taught, "id" | "rigged">): Taught {
  const known = { ...one, id: newId(), rigged: riggedNow(one, gear.value) ?? null };
  taught.set([known, ...taught.value]);
  return known;
}

/** By the gear that is aboard; undefined where its rig is not any more. */
function riggedNow(one: Omit<Taught, "id" | "rigged">, g: Gear): Rigged | undefined {
  const rig = g.rigs.find(({ id }) => id === one.rig);
  if (!rig) return undefined;
  const { place, lineOut, drail, sinker } = one;
  const rod: Rod = { id: "", place, rig: rig.id, lineOut, drail, sinker, planned: null };
  return { rod: bareRod(g, rod), ...kindsOn(g, rig) };
}

/** As calibration takes it; undefined where nobody knows any more how it was rigged. */
export function seenOf(one: Taught, g: Gear = gear.value): Omit<Observation, "age"> | undefined {
  const rigged = one.rigged ?? riggedNow(one, g);
  if (!rigged) return undefined;
  const { kind, reading, doubt, speed, speedDoubt } = one;
  const water = properties.value;
  return {
    kind,
    sea: {
      speed,
      ...(kind === "known" && { bottom: reading }),
      ...(water && { water: { density: water.density, viscosity: water.viscosity } }),
    },
    ...rigged,
    ...(kind !== "known" && { [kind]: reading }),
    readingDoubt: doubt,
    speedDoubt,
  };
}
