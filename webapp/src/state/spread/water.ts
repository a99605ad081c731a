/** The water fished in, kept on this phone: its warmth and salt, and what the desk makes of them. */
import { effect, signal, untracked } from "@preact/signals";
import { Died, desk } from "../../base/desk/desk";
import { type Answer, limits } from "../../base/desk/types/seawater.gen";
import { Kept } from "../../base/store/kept";
import { record, within } from "../../base/store/shape";

export interface Water {
  /** °C. */
  temperature: number;
  /** On the practical scale. */
  salinity: number;
}

const of = limits.Query;

/** As first set: as the desk takes it where nothing is told. */
export const firstWater: Water = {
  temperature: of.temperature.default,
  salinity: of.salinity.default,
};

export const water = new Kept<Water>(
  "water",
  record<Water>({ temperature: within(of.temperature), salinity: within(of.salinity) }),
  firstWater,
);

/** Whether it is as first set, but for the dust of a conversion there and back. */
export const waterAsFirst = ({ temperature, salinity }: Water): boolean =>
  Math.abs(temperature - firstWater.temperature) < 1e-9 && Math.abs(salinity - firstWater.salinity) < 1e-9;

/** Density and viscosity of the water; undefined where it is as first set, and until the desk has answered. */
export const properties = signal<Answer | undefined>(undefined);

/** Asks the desk about the water, now and after every change. Returns the way to stop it. */
export function keepWater(): () => void {
  return effect(() => {
    const asked = water.signal.value;
    desk.restarts.value;
    if (waterAsFirst(asked)) properties.value = undefined;
    else untracked(() => ask(asked));
  });
}

async function ask(asked: Water): Promise<void> {
  try {
    const answer = await desk.newest("water", asked);
    if (answer && water.value === asked) properties.value = answer;
  } catch (fault) {
    // With the next calculator it is asked again.
    if (!(fault instanceof Died)) throw fault;
  }
}
