/** What gear is called: its own name, or its numbers. */
import { fromDesk, text } from "../../base/text/text";
import { amount } from "../../base/units/show";
import { type DrailGear, type Gear, type LineGear, type Place, pick, type Rig, type Spoon } from "./gear";

export const wireName = (w: LineGear): string => w.name || text.gear.wire(amount("pull", w.breaking));
export const nylonName = (n: LineGear): string => n.name || text.gear.nylon(amount("pull", n.breaking));
export const spoonName = (s: Spoon): string => s.name || text.gear.spoon(amount("size", s.length));
export const drailName = (d: DrailGear): string => d.name || text.gear.drail(amount("weight", d.mass));
export const placeName = (p: Place): string => fromDesk(p.name) || text.gear.place;

export const rigName = (r: Rig, g: Gear): string =>
  r.name ||
  text.gear.rig(wireName(pick(g.wires, r.wire)), spoonName(pick(g.spoons, r.spoon)), r.dropper !== null);

/** What a wire or a spoon is called for what touches tell of it: the same on every phone, whatever its units and language. */
export const wireKind = (w: LineGear): string => kindOf(w.name, `${Math.round(w.breaking)} N`);
export const spoonKind = (s: Spoon): string => kindOf(s.name, `${Math.round(s.length * 1000)} mm`);

const kindOf = (name: string, numbers: string) => name.trim().toLowerCase().slice(0, 60) || numbers;

/** “three-way 20 oz, 8 oz drail”: the weights on a line; undefined without any. */
export function weightsName(drail: number, sinker: number | undefined): string | undefined {
  const words = [
    sinker !== undefined && text.gear.threeWayWith(amount("weight", sinker)),
    drail > 0 && text.gear.drail(amount("weight", drail)),
  ].filter((part) => part !== false);
  return words.length > 0 ? words.join(", ") : undefined;
}
