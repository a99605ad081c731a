/** The kinds of gear: what they are called, and which numbers each has. */
import type { Quantity } from "../../base/units/units";
import type { Gear, Kind, LineGear, Rig } from "./gear";
import { drailName, nylonName, placeName, rigName, spoonName, wireName } from "./names";

export interface NumberOf<Item> {
  key: keyof Item & string;
  quantity: Quantity;
  /** Field of the desk's rod that the number ends up in; the desk judges it there. */
  field?: string;
}

interface KindOf<K extends Kind> {
  nameOf: (item: Gear[K][number], gear: Gear) => string;
  numbers: NumberOf<Gear[K][number]>[];
  /** A rig with this item on it, for the desk to judge. */
  on: (rig: Rig, id: string) => Rig;
}

export const kinds: { [K in Kind]: KindOf<K> } = {
  rigs: {
    nameOf: rigName,
    numbers: [
      { key: "wireLength", quantity: "line", field: "rig.wireLength" },
      { key: "backingLength", quantity: "line", field: "rig.backingLength" },
      { key: "leaderLength", quantity: "line", field: "rig.leaderLength" },
    ],
    on: (rig) => rig,
  },
  wires: { nameOf: wireName, numbers: lineNumbers("rig.wire"), on: (rig, wire) => ({ ...rig, wire }) },
  nylons: {
    nameOf: nylonName,
    numbers: lineNumbers("rig.leader"),
    on: (rig, leader) => ({ ...rig, leader }),
  },
  spoons: {
    nameOf: spoonName,
    numbers: [
      { key: "length", quantity: "size" },
      { key: "mass", quantity: "weight", field: "rig.lure.mass" },
      { key: "density", quantity: "density", field: "rig.lure.density" },
      { key: "dragArea", quantity: "area", field: "rig.lure.dragArea" },
      { key: "liftArea", quantity: "area", field: "rig.lure.liftArea" },
    ],
    on: (rig, spoon) => ({ ...rig, spoon }),
  },
  drails: {
    nameOf: drailName,
    numbers: [
      { key: "mass", quantity: "weight", field: "rig.drails[0].mass" },
      { key: "number", quantity: "count" },
    ],
    on: (rig) => rig,
  },
  places: {
    nameOf: placeName,
    numbers: [
      { key: "tipHeight", quantity: "depth", field: "tipHeight" },
      { key: "abeam", quantity: "depth", field: "abeam" },
      { key: "ahead", quantity: "depth", field: "ahead" },
    ],
    on: (rig) => rig,
  },
};

function lineNumbers(field: string): NumberOf<LineGear>[] {
  return [
    { key: "breaking", quantity: "pull" },
    { key: "diameter", quantity: "thin", field: `${field}.diameter` },
    { key: "density", quantity: "density", field: `${field}.density` },
    { key: "strum", quantity: "factor", field: `${field}.strum` },
  ];
}

export const isKind = (name: string): name is Kind => Object.hasOwn(kinds, name);
