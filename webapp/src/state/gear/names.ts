/** What gear is called: its own name, or its numbers. */
import { fromDesk, text } from "../../base/text/text";
import { amount } from "../../base/units/show";
import { type DrailGear, type Gear, type LineGear, type Place, pick, type Rig, type Spoon } from "./gear";

export const wireName = (w: LineGear): string => called(w.name, "wire", amount("pull", w.breaking));
export const nylonName = (n: LineGear): string => called(n.name, "nylon", amount("pull", n.breaking));
export const spoonName = (s: Spoon): string => called(s.name, "spoon", amount("size", s.length));
export const drailName = (d: DrailGear): string => called(d.name, "drail", amount("weight", d.mass));
export const placeName = (p: Place): string => fromDesk(p.name) || text.gear.place;

/** As notes tell it: one of the catalogue's as it came, which every phone says in its own language. */
export const placeNoted = (p: Place): string => p.name || text.gear.place;

/** A rod as notes tell it, “2 port corner”, in the language of this phone. */
export const rodWords = (noted: string): string => {
  const [, number = "", place = ""] = /^(\d+ )?(.*)$/.exec(noted) ?? [];
  return number + fromDesk(place);
};

/** A spoon as notes tell it: what nobody named goes by its length, which every phone says in its own language and unit. */
export const spoonNoted = (s: Spoon): string => named(s.name) ?? lengthOf(s);

/** A spoon as notes tell it, in the language and unit of this phone. */
export const spoonWords = (noted: string): string => {
  const length = millimetresOf(noted);
  return length ? text.gear.spoon(amount("size", Number(length) / 1000)) : noted;
};

/** A rig as notes tell it: by its own name, or by its wire and spoon. */
export const rigNoted = (r: Rig, g: Gear): string => {
  const wire = pick(g.wires, r.wire);
  const parts = [named(wire.name) ?? strengthOf(wire, 10), spoonNoted(pick(g.spoons, r.spoon))];
  return named(r.name) ?? [...parts, ...(r.dropper ? ["three-way"] : [])].join(" + ");
};

/** A rig as notes tell it, in the language and units of this phone. */
export const rigWords = (noted: string): string => {
  const [, wire, spoon, dropper] = /^(.+?) \+ (.+?)( \+ three-way)?$/.exec(noted) ?? [];
  if (!wire || !spoon || !(dropper || newtonsOf(wire) || millimetresOf(spoon))) return noted;
  return text.gear.rig(wireOfKind(wire, []), spoonWords(spoon), dropper !== undefined);
};

/** A name that somebody gave. */
const named = (name: string): string | undefined => (name && !isCopy(name) ? name : undefined);

export function rigName(r: Rig, g: Gear): string {
  const { copy, rig } = text.gear;
  const own = named(r.name);
  if (own) return own;
  const parts = rig(wireName(pick(g.wires, r.wire)), spoonName(pick(g.spoons, r.spoon)), r.dropper !== null);
  return r.name ? copy(parts) : parts;
}

/** With the spoon's colour, where that is told: two of a length are told apart by it. */
const inColour = (name: string, { colour }: Spoon): string =>
  colour ? `${name}, ${(text.gear.colours[colour] ?? colour).toLowerCase()}` : name;

export const spoonInColour = (s: Spoon): string => inColour(spoonName(s), s);
export const rigInColour = (r: Rig, g: Gear): string => inColour(rigName(r, g), pick(g.spoons, r.spoon));

function called(name: string, what: ByNumbers, number: string): string {
  const byNumber = text.gear[what](number);
  if (!name) return byNumber;
  return isCopy(name) ? text.gear.copy(byNumber) : name;
}

type ByNumbers = "wire" | "nylon" | "spoon" | "drail";

/** A pattern of what the words make of a number with its unit, such as “8 in spoon”. */
const numbered = (what: ByNumbers): string =>
  literally(text.gear[what]("\u0000")).replace("\u0000", "\\d[\\d.,]*\\s*\\S+");

const literally = (words: string): string => words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

const copied = (pattern: string): string => literally(text.gear.copy("\u0000")).replace("\u0000", pattern);

const copies = new RegExp(
  `^(?:${[
    ...(["wire", "nylon", "spoon", "drail"] as const).map((what) => copied(numbered(what))),
    ...[false, true].map((threeWay) =>
      copied(
        literally(text.gear.rig("\u0000", "\u0001", threeWay))
          .replace("\u0000", `(?:${numbered("wire")}|${copied(numbered("wire"))})`)
          .replace("\u0001", `(?:${numbered("spoon")}|${copied(numbered("spoon"))})`),
      ),
    ),
  ].join("|")})$`,
);

/**
 * Whether a name was given by nobody but comes of copying what is called by its numbers: it goes by its own, which have
 * perhaps changed since.
 */
export const isCopy = (name: string): boolean => copies.test(name);

/** What a wire or a spoon is called for what touches tell of it: the same on every phone, whatever its units and language. */
export const wireKind = (w: LineGear): string => kindOf(w.name, strengthOf(w));
export const spoonKind = (s: Spoon): string => kindOf(s.name, lengthOf(s));

/** To whole newtons, or to tenths, as kilograms are told to tenths of one. */
const strengthOf = (w: LineGear, parts = 1): string => `${Math.round(w.breaking * parts) / parts} N`;
const lengthOf = (s: Spoon): string => `${Math.round(s.length * 1000)} mm`;
const newtonsOf = (kind: string) => /^(\d+(?:\.\d)?) N$/.exec(kind)?.[1];
const millimetresOf = (kind: string) => /^(\d+) mm$/.exec(kind)?.[1];

/** A kind of wire in words: as it is called here, or one that nobody named by its strength. */
export function wireOfKind(kind: string, wires: LineGear[]): string {
  const own = wires.find((wire) => wireKind(wire) === kind);
  const newtons = newtonsOf(kind);
  if (own) return wireName(own);
  return newtons ? text.gear.wire(amount("pull", Number(newtons))) : kind;
}

const kindOf = (name: string, numbers: string) => name.trim().toLowerCase().slice(0, 60) || numbers;

/** “three-way 20 oz, 8 oz drail”: the weights on a line; undefined without any. */
export function weightsName(drail: number, sinker: number | undefined): string | undefined {
  const words = [
    sinker !== undefined && text.gear.threeWayWith(amount("weight", sinker)),
    drail > 0 && text.gear.drail(amount("weight", drail)),
  ].filter((part) => part !== false);
  return words.length > 0 ? words.join(", ") : undefined;
}
