/** The gear saved on this phone: typed once, chosen by name. All numbers in SI. */
import type { Catalogue, Earlier } from "../../base/desk/types/gear.gen";
import { newId } from "../../base/store/id";
import { Kept } from "../../base/store/kept";
import { list, number, orNone, record, type Shape, words } from "../../base/store/shape";

interface Item {
  id: string;
  /** Empty: it is called by its numbers. */
  name: string;
  /** Where its numbers come from. */
  source: string;
}

/** Wire or nylon. */
export interface LineGear extends Item {
  breaking: number;
  diameter: number;
  density: number;
  /** Factor on the drag for strumming and fouling. */
  strum: number;
}

export interface Spoon extends Item {
  /** One of the usual colours, or the owner's word for it; empty: not told. */
  colour: string;
  length: number;
  mass: number;
  density: number;
  dragArea: number;
  liftArea: number;
}

export interface DrailGear extends Item {
  mass: number;
  /** How many are aboard. */
  number: number;
}

/** Where a rod stands, and where the line leaves it. */
export interface Place extends Item {
  /** Above the water. */
  tipHeight: number;
  /** To starboard of the boat's middle; negative: to port. */
  abeam: number;
  /** Ahead of the point about which she turns. */
  ahead: number;
}

/** What is on one reel. Lines and spoon by id. */
export interface Rig extends Item {
  wire: string;
  wireLength: number;
  backing: string;
  backingLength: number;
  leader: string;
  leaderLength: number;
  spoon: string;
  /** A three-way at the join of wire and leader. */
  dropper: Dropper | null;
}

export interface Dropper {
  line: string;
  length: number;
  sinker: number;
}

export interface Gear {
  wires: LineGear[];
  nylons: LineGear[];
  spoons: Spoon[];
  drails: DrailGear[];
  places: Place[];
  rigs: Rig[];
}

export type Kind = keyof Gear;

const item = { id: words, name: words, source: words };
const lineGear = record<LineGear>({
  ...item,
  breaking: number,
  diameter: number,
  density: number,
  strum: number,
});
const most = 200;
/** So many of each drail are aboard until somebody says otherwise: a judgement. */
const fewDrails = 2;

const shape: Shape<Gear> = record<Gear>({
  wires: list(lineGear, most),
  nylons: list(lineGear, most),
  spoons: list(
    record<Spoon>(
      {
        ...item,
        colour: words,
        length: number,
        mass: number,
        density: number,
        dragArea: number,
        liftArea: number,
      },
      { colour: "" },
    ),
    most,
  ),
  drails: list(record<DrailGear>({ ...item, mass: number, number }, { number: fewDrails }), most),
  places: list(
    record<Place>({ ...item, tipHeight: number, abeam: number, ahead: number }, { abeam: 0, ahead: 0 }),
    most,
  ),
  rigs: list(
    record<Rig>({
      ...item,
      wire: words,
      wireLength: number,
      backing: words,
      backingLength: number,
      leader: words,
      leaderLength: number,
      spoon: words,
      dropper: orNone(record<Dropper>({ line: words, length: number, sinker: number })),
    }),
    most,
  ),
});

const none: Gear = { wires: [], nylons: [], spoons: [], drails: [], places: [], rigs: [] };

export const gear = new Kept<Gear>("gear", shape, none);

/** Whether every kind has at least one: only then can a rod be rigged. */
export const complete = (g: Gear): boolean => Object.values(g).every((kind) => kind.length > 0);

/** The gear of this id; the first of its kind when it is not there any more. */
export const pick = <T extends Item>(items: T[], id: string): T =>
  items.find((one) => one.id === id) ?? (items[0] as T);

/** With the catalogue's drag and source in the place of its earlier ones, in gear that nobody has changed. */
export function renewed(g: Gear, from: Catalogue): Gear {
  const lines = (own: LineGear[], items: Catalogue["wires"]) =>
    own.map((one) => {
      const item = items.find((it) => unchanged(one, it, ["breaking", "diameter", "density"], one.strum));
      return item ? { ...one, strum: item.strum, source: item.source } : one;
    });
  const spoons = g.spoons.map((one) => {
    const item = from.spoons.find((it) =>
      unchanged(one, it, ["length", "mass", "density", "liftArea"], one.dragArea),
    );
    return item ? { ...one, dragArea: item.dragArea, source: item.source } : one;
  });
  return { ...g, wires: lines(g.wires, from.wires), nylons: lines(g.nylons, from.nylons), spoons };
}

/** Whether gear is still as an item of the catalogue was before; what somebody has changed says that it is their own. */
const unchanged = <N extends string>(
  own: { source: string } & Record<N, number>,
  item: { earlier: Earlier } & Record<N, number>,
  numbers: N[],
  drag: number,
): boolean =>
  own.source === item.earlier.source &&
  same(drag, item.earlier.drag) &&
  numbers.every((name) => same(own[name], item[name]));

/** Equal, but for rounding when units are converted there and back. */
const same = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.abs(a);

/** Fills the kinds that are empty from the catalogue. */
export function withCatalogue(g: Gear, from: Catalogue): Gear {
  const fresh = <T extends { source: string }>(one: T) => ({ id: newId(), name: "", ...one });
  const lines = (items: Catalogue["wires"]) => items.map(({ earlier: _, ...one }) => fresh(one));
  const or = <T>(own: T[], from: () => T[]) => (own.length > 0 ? own : from());
  const filled = {
    wires: or(g.wires, () => lines(from.wires)),
    nylons: or(g.nylons, () => lines(from.nylons)),
    spoons: or(g.spoons, () => from.spoons.map(({ earlier: _, ...one }) => ({ ...fresh(one), colour: "" }))),
    drails: or(g.drails, () => from.drails.map((drail) => ({ ...fresh(drail), number: fewDrails }))),
    places: or(g.places, () => from.places.map(fresh)),
  };
  const at = <T extends Item>(items: T[], index: number) => (items[index] ?? (items[0] as T)).id;
  const { start } = from;
  const first = (): Rig => ({
    id: newId(),
    name: "",
    source: start.source,
    wire: at(filled.wires, start.wire),
    wireLength: start.wireLength,
    backing: at(filled.nylons, start.backing),
    backingLength: start.backingLength,
    leader: at(filled.nylons, start.leader),
    leaderLength: start.leaderLength,
    spoon: at(filled.spoons, start.spoon),
    dropper: null,
  });
  return { ...filled, rigs: or(g.rigs, () => [first()]) };
}
