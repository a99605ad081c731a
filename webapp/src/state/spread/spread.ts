/** The spread as it is out there, kept on this phone. All numbers in SI. */
import { signal } from "@preact/signals";
import type { Catalogue } from "../../base/desk/types/gear.gen";
import { type Caution, limits, type Planned } from "../../base/desk/types/towline.gen";
import { newId } from "../../base/store/id";
import { Kept } from "../../base/store/kept";
import { flag, list, number, oneOf, orNone, record, within, words } from "../../base/store/shape";
import type { Gear } from "../gear/gear";

export interface Rod {
  id: string;
  /** Place and rig, by id. */
  place: string;
  rig: string;
  lineOut: number;
  /** Mass of the drail at the join of wire and leader; 0 for none. */
  drail: number;
  /** Mass of the sinker of a three-way; 0 for the one its rig has. */
  sinker: number;
  /** What the plan by which it is set holds for; null once anything of it has been changed, and without a plan. */
  planned: Planned | null;
}

export interface Spread {
  speed: number;
  bottom: number;
  wanted: { low: number; high: number };
  /** What chance to touch is accepted for a better chance in the band. */
  caution: Caution;
  /** One standard deviation of the depth of water, and of what the tide may have changed of it, m. */
  bottomDoubt: number;
  tideDoubt: number;
  rods: Rod[];
  /** None of them is in the water: no lure is warned of. */
  allIn: boolean;
  /** The rod being handled. */
  selected: string;
}

export const mostRods = 8;

export const cautions = [
  "keep clear",
  "a tick now and then",
  "along the bottom",
] as const satisfies Caution[];

const first = {
  caution: limits.Spread.caution.default as Caution,
  bottomDoubt: limits.Spread.bottomDoubt.default,
  tideDoubt: limits.Spread.tideDoubt.default,
  allIn: false,
};

export const spread = new Kept<Spread>(
  "spread",
  record<Spread>(
    {
      speed: number,
      bottom: number,
      wanted: record({ low: number, high: number }),
      rods: list(
        record<Rod>(
          {
            id: words,
            place: words,
            rig: words,
            lineOut: number,
            drail: number,
            sinker: number,
            planned: orNone(
              record<Planned>({ inBand: within(limits.Planned.inBand), touch: within(limits.Planned.touch) }),
            ),
          },
          { sinker: 0, planned: null },
        ),
        mostRods,
      ),
      allIn: flag,
      selected: words,
      caution: oneOf(...cautions),
      bottomDoubt: within(limits.Spread.bottomDoubt),
      tideDoubt: within(limits.Spread.tideDoubt),
    },
    first,
  ),
  { speed: 0, bottom: 0, wanted: { low: 0, high: 0 }, ...first, rods: [], selected: "" },
);

/** The spread a first-time user begins with. */
export function firstSpread({ start }: Catalogue, gear: Gear): Spread {
  const rig = gear.rigs[0]?.id ?? "";
  const rods = start.rods.map((rod) => ({
    id: newId(),
    place: (gear.places[rod.place] ?? gear.places[0])?.id ?? "",
    rig,
    lineOut: rod.lineOut,
    drail: rod.drail,
    sinker: 0,
    planned: null,
  }));
  return {
    speed: start.speed,
    bottom: start.bottom,
    wanted: { low: start.wantedLow, high: start.wantedHigh },
    ...first,
    rods,
    selected: rods[0]?.id ?? "",
  };
}

/** The depth of water that everybody begins with, m; undefined until the catalogue is known. */
export const beginning = signal<number | undefined>(undefined);

/** Whether nobody has set the depth of water yet, nor what is on this rod. */
export const isBegun = (now: Spread, gear: Gear, rod: Rod): boolean =>
  now.bottom === beginning.value && rod.rig === gear.rigs[0]?.id;

/** Whether they are not the boat's lines, but those that every phone begins with. */
export const areBegun = (now: Spread, gear: Gear): boolean =>
  now.rods.every((rod) => isBegun(now, gear, rod));

export const selectedRod = (s: Spread): Rod | undefined =>
  s.rods.find((r) => r.id === s.selected) ?? s.rods[0];

/** The speeds through the water that Pace goes by, m/s; undefined while it has none. */
export const wantedSpeeds = signal<{ low: number; high: number } | undefined>(undefined);
