/** The spread as it is set on this phone, in words and numbers that make sense on any other. */

import type { Asked } from "../calibrate/observe";
import { plainLine } from "../entry/contract";
import { gear, pick } from "../gear/gear";
import { placeNoted, rigNoted, spoonNoted } from "../gear/names";
import { doubtNow } from "../spread/doubt";
import { bareRod, kindsOn, sinkerOn } from "../spread/request";
import { answerFor, solved } from "../spread/solved";
import { isBegun, type Rod, spread } from "../spread/spread";
import { properties } from "../spread/water";

export interface RodThen {
  /** As they are noted: rodWords, rigWords and spoonWords say them in the language of this phone. */
  place: string;
  rig: string;
  lure: string;
  /** Of the lure, as marks tell it; absent: not told. */
  colour?: string;
  /** m, kg. */
  lineOut: number;
  drail: number;
  /** Of a three-way, kg. */
  sinker?: number;
  /** Where the lure was reckoned to ride, m. */
  depth?: { low: number; mid: number; high: number };
}

export interface SpreadThen {
  /** m/s through the water, and m. */
  speed: number;
  bottom: number;
  rods: RodThen[];
}

/** Undefined while there is none: on a phone that has just got the app, until the catalogue has come to begin with. */
export function spreadNow(): SpreadThen | undefined {
  const { speed, bottom, rods } = spread.value;
  return rods.length > 0 ? { speed, bottom, rods: rods.map(rodNow) } : undefined;
}

export function rodNow(rod: Rod): RodThen {
  const rig = pick(gear.value.rigs, rod.rig);
  const spoon = pick(gear.value.spoons, rig.spoon);
  const sinker = sinkerOn(gear.value, rod);
  const answer = solved.value?.spread === spread.value ? answerFor(solved.value, rod) : undefined;
  return {
    place: placeNoted(pick(gear.value.places, rod.place)),
    rig: rigNoted(rig, gear.value),
    lure: spoonNoted(spoon),
    ...(spoon.colour && { colour: spoon.colour }),
    lineOut: rod.lineOut,
    drail: rod.drail,
    ...(sinker !== undefined && { sinker }),
    ...(answer && !answer.trouble && { depth: answer.depth }),
  };
}

/** What calibration asks of a touch of this rod, on whatever phone. */
export function askedNow(name: string, rod: Rod): Asked {
  const water = properties.value;
  return {
    name,
    rod: bareRod(gear.value, rod),
    ...kindsOn(gear.value, pick(gear.value.rigs, rod.rig)),
    ...(water && { water: { density: water.density, viscosity: water.viscosity } }),
    speedDoubt: doubtNow.value.speed,
    ...(isBegun(spread.value, gear.value, rod) && { begun: true }),
  };
}

/** The spread of a record, as far as it can be read: another phone or version may have written it. */
export function spreadIn(raw: unknown): SpreadThen | undefined {
  const { speed, bottom, rods } = (raw ?? {}) as Partial<SpreadThen>;
  if (typeof speed !== "number" || typeof bottom !== "number" || !Array.isArray(rods)) return undefined;
  // No field bounds the words within a spread.
  return {
    speed,
    bottom,
    rods: rods.filter(isRod).map(({ colour, ...rod }) => ({
      ...rod,
      place: plainLine(rod.place),
      rig: plainLine(rod.rig),
      lure: plainLine(rod.lure),
      ...(typeof colour === "string" && colour !== "" && { colour: plainLine(colour) }),
    })),
  };
}

const isRod = (raw: unknown): raw is RodThen => {
  const { place, rig, lure, lineOut, drail, sinker = 0 } = (raw ?? {}) as Partial<RodThen>;
  return (
    [place, rig, lure].every((word) => typeof word === "string") &&
    [lineOut, drail, sinker].every((number) => Number.isFinite(number))
  );
};
