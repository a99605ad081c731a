/** By what settings are told apart, and into which levels what is measured falls. */
import { text } from "../../base/text/text";
import { units } from "../../base/units/settings";
import { amount, numeral, unitName } from "../../base/units/show";
import { fromSi, type Quantity, scaleOf } from "../../base/units/units";
import { course } from "../../base/units/when";
import { rodWords, spoonWords } from "../gear/names";
import { choiceName } from "../notes/words";
import type { Out } from "./effort";

const t = text.produced;
const eighth = Math.PI / 4;

export const rodFactors = ["rod", "lure", "colour", "lineOut", "drail", "depth", "offBottom"] as const;
export const boatFactors = ["light", "tide", "ground", "speed", "heading", "beat"] as const;
export type RodFactor = (typeof rodFactors)[number];
export type BoatFactor = (typeof boatFactors)[number];
export type FactorName = RodFactor | BoatFactor;

/** Widths of levels in the unit that is read. Judgements: about what one would change at a time. */
const widths: { [what: string]: number } = {
  "line ft": 25,
  "line fm": 5,
  "line m": 10,
  "depth ft": 5,
  "depth fm": 1,
  "depth m": 2,
  "off ft": 3,
  "off fm": 0.5,
  "off m": 1,
};

/** “200–225 ft” */
function within(quantity: Quantity, si: number, width: number): string {
  const low = Math.floor(fromSi(si, scaleOf(quantity, units()).unit) / width + 1e-9) * width;
  const step = width < 1 ? 0.1 : 1;
  return `${numeral(low, step)}–${numeral(low + width, step)}\u00a0${unitName(quantity)}`;
}

const widthOf = (what: string, quantity: "line" | "depth"): number =>
  widths[`${what} ${units()[quantity]}`] ?? 1;

/** The level of a line by a factor; undefined: not told. */
export function levelOfRod(factor: RodFactor, { rod, bottom, changed }: Out): string | undefined {
  const unsure = (...what: Out["changed"]) => what.some((one) => changed.includes(one));
  switch (factor) {
    case "rod":
      return rodWords(rod.place) || undefined;
    case "lure":
      return unsure("lure") ? undefined : spoonWords(rod.lure) || undefined;
    case "colour":
      return unsure("lure", "colour") || !rod.colour ? undefined : choiceName("colour", rod.colour);
    case "lineOut":
      return unsure("lineOut") ? undefined : within("line", rod.lineOut, widthOf("line", "line"));
    case "drail":
      return unsure("drail") ? undefined : rod.drail > 0 ? amount("weight", rod.drail) : t.noDrail;
  }
  const mid = unsure("lineOut", "drail", "lure") ? undefined : rod.depth?.mid;
  if (mid === undefined || !Number.isFinite(mid)) return undefined;
  if (factor === "depth") return within("depth", mid, widthOf("depth", "depth"));
  return within("depth", Math.max(0, bottom - mid), widthOf("off", "depth"));
}

export const levelOfSpeed = (si: number): string => within("speed", si, 0.2);
export const levelOfBeat = (si: number): string => within("beat", si, 15);
/** To the nearest of eight courses. */
export const levelOfHeading = (si: number): string => course((Math.round(si / eighth) % 8) * eighth);

export const levelOfTide = (last: "high water" | "low water", since: number): string => {
  const hour = Math.min(5, Math.floor(since / 3600));
  return t.tide[last](hour - (hour % 2), hour - (hour % 2) + 2);
};
