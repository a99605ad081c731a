/** Whether the rules of size and bag have to be looked up before going: at sea there may be nothing to look them up with. */
import { effect, signal, untracked } from "@preact/signals";
import { desk } from "../../base/desk/desk";
import { catchOf, fitting, inForce, rules, speciesOf, watersNow } from "../rules/rules";

/** Undefined: not known yet. */
export const rulesOld = signal<boolean | undefined>(undefined);

async function look(): Promise<boolean> {
  const set = inForce();
  const waters = watersNow();
  if (!set || !waters) return true;
  const answers = await Promise.all(
    speciesOf(set, waters).map((species) => {
      const asked = { species, length: fitting(set, species, waters), byPerson: 0, byBoat: 0, aboard: 1 };
      return desk.ask("keep", catchOf(set, waters, asked));
    }),
  );
  return answers.some(({ aged }) => aged.length > 0);
}

/** From now on looks with every change of the rules, and when the calculator has started. */
export function keepLookingAtRules(): void {
  effect(() => {
    const of = rules.value;
    desk.state.value;
    untracked(look).then(
      (old) => {
        if (rules.value === of) rulesOld.value = old;
      },
      // What the desk cannot judge has to be looked at as well.
      () => {
        if (rules.value === of) rulesOld.value = true;
      },
    );
  });
}
