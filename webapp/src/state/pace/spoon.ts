/** The spoon whose beat is watched, which is that of the rod in hand on Lines; and what its marks tell. */
import { computed, effect, signal, untracked } from "@preact/signals";
import { Died, desk } from "../../base/desk/desk";
import type { PumpAnswer } from "../../base/desk/types/beat.gen";
import { gear, pick } from "../gear/gear";
import { selected } from "../spread/solved";
import { marks, marksOf } from "./marks";

export const spoonId = computed(() => {
  const rod = selected.value;
  return rod && pick(gear.value.rigs, rod.rig).spoon;
});

export const pump = signal<{ spoon: string; answer: PumpAnswer } | undefined>(undefined);

/** Asks anew with every mark and spoon. */
export function keepPump(): void {
  effect(() => {
    const spoon = spoonId.value;
    marks.signal.value;
    desk.restarts.value;
    if (spoon) untracked(() => learn(spoon));
  });
}

async function learn(spoon: string): Promise<void> {
  try {
    const answer = await desk.newest("pump", { marks: marksOf(spoon) });
    if (answer) pump.value = { spoon, answer };
  } catch (fault) {
    if (!(fault instanceof Died)) throw fault;
  }
}
