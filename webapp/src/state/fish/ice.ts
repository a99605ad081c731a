/** What is known of the day that the ice is for, and the boxes aboard; kept on this phone. */
import { type Ice, type IceQuery, limits, type Material } from "../../base/desk/types/chill.gen";
import { Kept } from "../../base/store/kept";
import { list, number, oneOf, record, type Shape, within, words } from "../../base/store/shape";
import { water } from "../spread/water";

export interface IceBox {
  id: string;
  name: string;
  source: string;
  length: number;
  width: number;
  height: number;
  wall: number;
  material: Material;
  /** 0: told by wall and material. */
  u: number;
  mass: number;
}

export const materials = ["polyurethane foam", "polystyrene foam", "wood", "plastic"] as const;
export const kinds = ["block", "crushed", "flake", "tube"] as const;
/** Mean on the lid, W/m², and the share that a lid takes in; from memory. */
export const suns = { shade: 0, some: 250, full: 600 } as const;
export const lids = { white: 0.3, dark: 0.9 } as const;
/** Mass of sea water for each of ice. */
export const mixes = { none: 0, half: 0.5, same: 1 } as const;

export interface IceDay {
  boxes: IceBox[];
  box: string;
  /** How many fish, the mass of one in kg, and when the first and the last come, s after filling. */
  count: number;
  mass: number;
  first: number;
  last: number;
  /** s. */
  hold: number;
  air: number;
  sun: keyof typeof suns;
  lid: keyof typeof lids;
  kind: Ice;
  mix: keyof typeof mixes;
  /** kg; 0: as much as is needed. */
  aboard: number;
}

const of = limits.IceQuery;
const sizes = limits.Box;

const box: Shape<IceBox> = record<IceBox>({
  id: words,
  name: words,
  source: words,
  length: within(sizes.length),
  width: within(sizes.width),
  height: within(sizes.height),
  wall: within(sizes.wall),
  material: oneOf(...materials),
  u: within(sizes.u),
  mass: within(sizes.mass),
});

const keys = <T extends object>(all: T) => Object.keys(all) as (keyof T & string)[];

/** 3.8 cm, and 1.5 in. */
const wall = 0.038;

/** Sizes inside in m, empty mass in kg; all round in the units of either kind; from memory. */
const boxOf = (id: string, length: number, width: number, height: number, mass: number): IceBox => ({
  id,
  name: "",
  source: "",
  length,
  width,
  height,
  wall,
  material: sizes.material.default,
  u: sizes.u.default,
  mass,
});

/** Round in the units of either kind: 25 °C are 77 °F. With as much sea water as ice the desk warns that fish can freeze. */
export const firstDay: IceDay = {
  boxes: [
    boxOf("small", 0.56, 0.33, 0.33, 7.03),
    boxOf("long", 0.89, 0.38, 0.33, 14.97),
    boxOf("large", 1.18, 0.47, 0.42, 24.96),
  ],
  box: "long",
  count: 2,
  mass: 5,
  first: 2 * 3600,
  last: 5 * 3600,
  hold: 10 * 3600,
  air: 25,
  sun: "some",
  lid: "white",
  kind: of.ice.default,
  mix: "half",
  aboard: of.aboard.default,
};

/** The most batches that the desk follows. */
export const mostFish = of.fish.most;

export const ice = new Kept<IceDay>(
  "ice",
  record<IceDay>({
    boxes: list(box, 50),
    box: words,
    count: within({ min: 0, max: mostFish }),
    mass: within(limits.Batch.mass),
    first: within(limits.Batch.at),
    last: within(limits.Batch.at),
    hold: within(of.hold),
    air: within(of.air),
    sun: oneOf(...keys(suns)),
    lid: oneOf(...keys(lids)),
    kind: oneOf(...kinds),
    mix: oneOf(...keys(mixes)),
    aboard: number,
  }),
  firstDay,
);

export const boxNow = ({ boxes, box: id }: IceDay = ice.value): IceBox =>
  boxes.find((one) => one.id === id) ?? boxes[0] ?? (firstDay.boxes[1] as IceBox);

/** What the desk is asked: the fish come evenly from the first to the last. */
export function iceQuery(day: IceDay = ice.value, sea = water.value): IceQuery {
  const { name: _, id: __, source: ___, ...inside } = boxNow(day);
  const count = Math.round(day.count);
  const temperature = Math.max(sea.temperature, limits.Batch.temperature.min);
  const last = Math.min(Math.max(day.last, day.first), day.hold);
  const first = Math.min(day.first, last);
  return {
    box: inside,
    fish: Array.from({ length: count }, (_, i) => ({
      at: first + (count > 1 ? ((last - first) * i) / (count - 1) : 0),
      mass: day.mass,
      temperature,
    })),
    sea: sea.temperature,
    salinity: sea.salinity,
    mix: mixes[day.mix],
    ice: day.kind,
    air: day.air,
    sun: suns[day.sun],
    absorbs: lids[day.lid],
    hold: day.hold,
    aboard: day.aboard,
  };
}
