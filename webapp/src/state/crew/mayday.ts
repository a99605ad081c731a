/** The words of a distress call with this boat's particulars in them, in the order in which they are said. */
import type { say } from "../../base/text/en/crew";
import { amount } from "../../base/units/show";
import type { Boat } from "./boat";

/** The order: US Coast Guard Navigation Center. Whatever is not known is left open, to be said as it is. */
export interface Known {
  boat: Boat;
  people: number;
  /** As on a chart; undefined: no fix. */
  place: string | undefined;
  ground: string;
  /** How long ago somebody went over the side, and where to look for them, as far as that is known. */
  lost?: { ago: string; where: string | undefined };
}

type Say = typeof say;

/** Nine digits, one by one, as they are read out; empty where it is no MMSI. */
export const digitByDigit = (mmsi: string): string =>
  isMmsi(mmsi) ? [...mmsi.replace(/\s/g, "")].join(" ") : "";

export const isMmsi = (mmsi: string): boolean => /^\d{9}$/.test(mmsi.replace(/\s/g, ""));

/** What the boat looks like: “24 ft, open boat, white”. */
export const looksOf = ({ length, type, hull }: Boat): string =>
  [length > 0 && amount("craft", length), type, hull].filter(Boolean).join(", ");

export function distressCall(say: Say, { boat, people, place, ground, lost }: Known): string[] {
  const name = boat.name || say.yourBoat;
  return [
    say.call,
    say.is(name, boat.callSign, digitByDigit(boat.mmsi)),
    say.again(name),
    say.position(place ?? say.unknown) + (ground ? ` ${say.ground(ground)}` : ""),
    lost ? say.lost(lost.ago, lost.where) : say.nature,
    say.help,
    `${say.people(people > 0 ? String(people) : say.unknown)} ${lost ? say.oneOut : say.hurt}`,
    say.looks(looksOf(boat) || say.unknown),
    say.listening,
    say.over,
    // What is left open ends in three dots already.
  ].map((sentence) => sentence.replaceAll(`${say.unknown}.`, say.unknown));
}
