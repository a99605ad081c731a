/** The spoon whose beat is watched, which is that of the rod in hand on Lines; and what its marks tell. */
import { computed, effect, signal, untracked } from "@preact/signals";
import { Died, desk } from "../../base/desk/desk";
import type { Pump, PumpAnswer, Start } from "../../base/desk/types/beat.gen";
import { gear, pick } from "../gear/gear";
import { selected, thumb } from "../spread/solved";
import { marks, marksOf } from "./marks";

export const spoonId = computed(() => {
  const rod = selected.value;
  return rod && pick(gear.value.rigs, rod.rig).spoon;
});

export const pump = signal<{ spoon: string; answer: PumpAnswer } | undefined>(undefined);

/** What the desk is asked of a spoon: its marks, and the speeds to start with while they are few. */
export function asked(spoon: string): Pump {
  const practice = thumb.value;
  return {
    marks: marksOf(spoon),
    ...(practice && { practiceLow: practice.speedLow, practiceHigh: practice.speedHigh }),
  };
}

/** The band of what the first marks say with practice, where it says more than practice alone. */
export const begun = (answer: PumpAnswer | undefined): Start | undefined =>
  answer?.start && answer.start.marks > 0 ? answer.start : undefined;

/** Asks anew with every mark and spoon. */
export function keepPump(): void {
  effect(() => {
    const spoon = spoonId.value;
    marks.signal.value;
    thumb.value;
    desk.restarts.value;
    if (spoon) untracked(() => learn(spoon));
  });
}

async function learn(spoon: string): Promise<void> {
  try {
    const answer = await desk.newest("pump", asked(spoon));
    if (answer) pump.value = { spoon, answer };
  } catch (fault) {
    if (!(fault instanceof Died)) throw fault;
  }
}
