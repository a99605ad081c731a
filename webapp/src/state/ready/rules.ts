/** Whether the rules of size and bag have to be looked up before going: at sea there may be nothing to look them up with. */
import { effect, signal, untracked } from "@preact/signals";
import { desk } from "../../base/desk/desk";
import { catchOf, fitting, inForce, rules, speciesOf, watersNow } from "../rules/rules";

/** nowhere: no waters are chosen to have rules of. old: a rule is out of date. */
export type Rules = "good" | "nowhere" | "old";

/** Undefined: not known yet, or the desk cannot judge it. */
export const rulesReady = signal<Rules | undefined>(undefined);

async function look(): Promise<Rules> {
  const set = inForce();
  const waters = watersNow();
  if (!set || !waters) return "nowhere";
  const answers = await Promise.all(
    speciesOf(set, waters).map((species) => {
      const asked = { species, length: fitting(set, species, waters), byPerson: 0, byBoat: 0, aboard: 1 };
      return desk.ask("keep", catchOf(set, waters, asked));
    }),
  );
  return answers.some(({ aged }) => aged.length > 0) ? "old" : "good";
}

/** From now on looks with every change of the rules, and when the calculator has started. */
export function keepLookingAtRules(): void {
  effect(() => {
    const of = rules.value;
    desk.state.value;
    untracked(look).then(
      (found) => {
        if (rules.value === of) rulesReady.value = found;
      },
      // What the desk cannot judge has to be looked at as well.
      () => {
        if (rules.value === of) rulesReady.value = undefined;
      },
    );
  });
}
