/** A trip as it is drawn: where the boat went, what happened where, and how deep the lures were over the bottom. */
import { Died, desk, Refused } from "../../base/desk/desk";
import type { Rod as RodAsked } from "../../base/desk/types/towline.gen";
import type { Folded } from "../entry/fold";
import { number, words } from "../entry/fold";
import { gear } from "../gear/gear";
import { placeName, rigName, rigNoted, spoonName, spoonNoted } from "../gear/names";
import { type RodThen, spreadIn } from "../notes/snapshot";
import { timeOf } from "../notes/words";
import { pointsOf } from "../out/formats";
import { doubtNow } from "../spread/doubt";
import { rodFor } from "../spread/request";
import { mostRods, type Rod, type Spread, spread } from "../spread/spread";
import { properties } from "../spread/water";
import { fishOf } from "./effort";

export interface Spot {
  at: number;
  lat: number;
  lon: number;
}

/** Longer silence breaks the track, ms. */
const gap = 30 * 60_000;

/** Where the boat was, by all notes and tracks and what else tells it, in pieces. */
export function trackOf(records: Folded[], more: Spot[] = []): Spot[][] {
  const all = records
    .filter(({ struck }) => !struck)
    .flatMap((record): Spot[] => {
      const [lat, lon] = [number(record, "lat"), number(record, "lon")];
      const own = lat === undefined || lon === undefined ? [] : [{ at: timeOf(record), lat, lon }];
      const loaded =
        record.kind === "track"
          ? pointsOf(record).map(({ time, lat, lon }) => ({ at: time * 1000, lat, lon }))
          : [];
      return [...own, ...loaded];
    })
    .concat(more)
    .sort((a, b) => a.at - b.at);
  const pieces: Spot[][] = [];
  for (const spot of all) {
    const piece = pieces.at(-1);
    const last = piece?.at(-1);
    if (piece && last && spot.at - last.at <= gap) piece.push(spot);
    else pieces.push([spot]);
  }
  return pieces;
}

/** What is drawn at its place. */
export interface Happened extends Spot {
  kind: "mark" | "touch" | "pass";
  landed: boolean;
  /** Of a pass, rad. */
  heading: number | undefined;
  record: Folded;
}

const drawn = ["mark", "touch", "pass"] as const;

export const happenedOf = (records: Folded[]): Happened[] =>
  records.flatMap((record): Happened[] => {
    const kind = drawn.find((one) => one === record.kind);
    const [lat, lon] = [number(record, "lat"), number(record, "lon")];
    if (!kind || record.struck || lat === undefined || lon === undefined) return [];
    const { landed } = fishOf(record);
    return [{ kind, landed, at: timeOf(record), lat, lon, heading: number(record, "heading"), record }];
  });

/** The rod of its spread that a mark names. */
export function rodOf(mark: Folded): { rod: RodThen; bottom: number; speed: number } | undefined {
  const then = spreadIn(mark.fields.get("spread")?.value);
  const name = words(mark, "rod");
  const rod = then?.rods.find((one, i) => name === `${i + 1} ${one.place}` || name === one.place);
  return then && rod ? { rod, bottom: then.bottom, speed: then.speed } : undefined;
}

/** A rod of then with the gear of this phone, by its names; undefined: there is no such gear here. */
export function rodNowOf(then: RodThen, id: string): Rod | undefined {
  const { places, rigs, spoons } = gear.value;
  const place = places.find((one) => [one.name, placeName(one)].includes(then.place));
  const rig =
    rigs.find((one) => [rigNoted(one, gear.value), rigName(one, gear.value)].includes(then.rig)) ??
    rigs.find((one) => {
      const spoon = spoons.find(({ id }) => id === one.spoon);
      return spoon && [spoonNoted(spoon), spoonName(spoon)].includes(then.lure);
    });
  if (!place || !rig) return undefined;
  const { lineOut, drail, sinker = 0 } = then;
  return { id, place: place.id, rig: rig.id, lineOut, drail, sinker, planned: null };
}

export interface Depths {
  mark: Folded;
  bottom: number;
  asThen: { low: number; mid: number; high: number } | undefined;
  /** With what touches have taught since; undefined: this phone has no such gear. */
  now: { low: number; mid: number; high: number } | undefined;
}

/** How deep each strike was, as it was reckoned then and as it is reckoned now. */
export async function depthsOf(marks: Folded[]): Promise<Depths[]> {
  const all = marks.flatMap((mark) => {
    const found = rodOf(mark);
    return found ? [{ mark, ...found }] : [];
  });
  return Promise.all(
    all.map(async ({ mark, rod, bottom, speed }) => {
      const here = rodNowOf(rod, mark.id);
      const now = here && (await reckoned(rodFor(gear.value, here), bottom, speed));
      return { mark, bottom, asThen: rod.depth, now };
    }),
  );
}

async function reckoned(rod: RodAsked, bottom: number, speed: number): Promise<Depths["now"]> {
  const water = properties.value;
  try {
    const { rods } = await desk.ask("spread", {
      sea: { speed, bottom, ...(water && { water: { density: water.density, viscosity: water.viscosity } }) },
      wanted: spread.value.wanted,
      doubt: doubtNow.value,
      rods: [rod],
    });
    const answer = rods[0];
    return answer && !answer.trouble ? answer.depth : undefined;
  } catch (fault) {
    if (fault instanceof Refused || fault instanceof Died) return undefined;
    throw fault;
  }
}

/** The spread of a record as it can be set here, and how many of its rods cannot. */
export function spreadBack(record: Folded): { patch: Partial<Spread>; lacking: number } | undefined {
  const then = spreadIn(record.fields.get("spread")?.value);
  if (!then || then.rods.length === 0) return undefined;
  const rods = then.rods
    .map((rod, i) => rodNowOf(rod, spread.value.rods[i]?.id ?? `${record.id} ${i}`))
    .filter((rod) => rod !== undefined)
    .slice(0, mostRods);
  if (rods.length === 0) return undefined;
  return {
    patch: { rods, speed: then.speed, selected: rods[0]?.id ?? "" },
    lacking: then.rods.length - rods.length,
  };
}
