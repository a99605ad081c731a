/** How the fish lie in the slush on this boat, and what the desk is asked of one. */
import { type Cooling, limits, type Stir } from "../../base/desk/types/chill.gen";
import { since } from "../../base/position/moment";
import { Kept } from "../../base/store/kept";
import { oneOf, orNone, record, within } from "../../base/store/shape";
import { water } from "../spread/water";
import { type Fish, usualLength } from "./fishes";

export interface SlushKept {
  /** °C; null: as the ice plan has it. */
  bath: number | null;
  /** Of fish as they go in, °C; null: as the sea. */
  warmth: number | null;
  stir: Stir;
}

export const stirs = ["packed in ice", "still slush", "stirred slush"] as const;

const of = limits.Cooling;

export const slush = new Kept<SlushKept>(
  "slush",
  record<SlushKept>({
    bath: orNone(within(of.bath)),
    warmth: orNone(within(of.temperature)),
    stir: oneOf(...stirs),
  }),
  { bath: null, warmth: null, stir: of.stir.default },
);

export const warmthNow = (): number =>
  slush.value.warmth ?? Math.min(Math.max(water.value.temperature, of.temperature.min), of.temperature.max);

/** What the desk is asked of this fish; bath is that of the plan, °C. */
export function coolingOf(fish: Fish, bath: number): Cooling {
  const died = fish.bled ?? fish.up;
  const dead = fish.iced ? Math.max(0, since(died) - since(fish.iced)) / 1000 : since(died) / 1000;
  return {
    length: fish.length || usualLength,
    temperature: warmthNow(),
    bath: slush.value.bath ?? bath,
    stir: slush.value.stir,
    // Whole minutes, so that it is not asked anew every second.
    dead: Math.min(Math.round(dead / 60) * 60, of.dead.max),
  };
}
