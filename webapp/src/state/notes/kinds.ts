/** The kinds of records: which fields each has, in the order in which they are told and asked. */
import { bare } from "../../base/text/spoken/bare";
import type { Quantity } from "../../base/units/units";

export type Field =
  | { name: string; as: "words"; long?: true }
  /** A few usual words, or others; only: no others. ifIs: asked where another field has that value. */
  | { name: string; as: "choice"; only?: true; ifIs?: { field: string; value: string } }
  | { name: string; as: "rod" | "spoon" }
  /** SI; start is where stepping begins while it is not told. asTold: asked only where it was told. */
  | { name: string; as: "number"; quantity: Quantity; start: number; asTold?: true }
  | { name: string; as: "course" }
  | { name: string; as: "count" };

const words = (name: string): Field => ({ name, as: "words" });
const choice = (name: string): Field => ({ name, as: "choice" });
const rod: Field = { name: "rod", as: "rod" };
const number = (name: string, quantity: Quantity, start: number) =>
  ({ name, as: "number", quantity, start }) as const satisfies Field;
const fate: Field = { name: "fate", as: "choice", only: true };
/** Asked of a fish that got off. */
const off: Field = { name: "off", as: "choice", ifIs: { field: "fish", value: "lost" } };
const bottom = number("bottom", "depth", 15);
const lineOut = number("lineOut", "line", 60);
const drail = number("drail", "weight", 0);
const told = (name: string, quantity: Quantity): Field => ({ ...number(name, quantity, 0), asTold: true });
const sinker = told("sinker", "weight");
const speed = number("speed", "speed", 1.6);

export const kinds = bare<{ [kind: string]: Field[] }>({
  trip: [words("name"), words("ground"), number("targetDepth", "depth", 15), words("wind"), words("sea")],
  person: [words("name")],
  // The length of a fish that is neither small nor large, to step from.
  mark: [
    rod,
    choice("fish"),
    off,
    number("length", "size", 0.75),
    fate,
    choice("hook"),
    choice("colour"),
    words("person"),
  ],
  lines: [rod, lineOut, drail],
  touch: [rod, bottom, lineOut, drail, sinker, speed],
  clear: [rod, bottom, lineOut, drail, sinker, speed],
  taught: [
    rod,
    lineOut,
    told("bottom", "depth"),
    told("angle", "angle"),
    told("entry", "line"),
    told("pull", "pull"),
    drail,
    sinker,
    speed,
  ],
  beat: [
    { name: "lure", as: "spoon" },
    number("beat", "beat", 1.5),
    speed,
    { name: "feel", as: "choice", only: true },
  ],
  pass: [{ name: "heading", as: "course" }, bottom, words("side")],
  note: [{ name: "text", as: "words", long: true }],
  track: [words("name")],
  photo: [words("caption")],
  trouble: [choice("what"), rod, words("gear")],
  tick: [],
  briefed: [],
  list: [],
  boat: [
    words("name"),
    words("registration"),
    words("callSign"),
    words("mmsi"),
    number("length", "craft", 6),
    words("type"),
    words("hull"),
    { name: "people", as: "count" },
    words("ground"),
    words("safety"),
    words("phone"),
    number("mostWind", "speed", 8),
    number("mostSea", "craft", 1),
    number("leastSight", "sea miles", 3704),
  ],
  rules: [words("name")],
  proposal: [],
  overboard: [words("person"), { name: "outcome", as: "choice", only: true }],
  bag: [choice("fish"), { name: "count", as: "count" }, words("person")],
});

/** Kinds that are ticked or told in Crew, time and again: the timeline would be full of them. */
export const toldElsewhere = ["trip", "proposal", "tick", "list", "boat", "rules"];
