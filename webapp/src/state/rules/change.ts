/** Changes of the rules by the skipper. */

import { Died, desk, Refused } from "../../base/desk/desk";
import type { Problem } from "../../base/desk/types/codec.gen";
import type { Aged } from "../../base/desk/types/fish.gen";
import { offerUndo } from "../../base/shell/undo";
import { newId } from "../../base/store/id";
import { fromDesk, text } from "../../base/text/text";
import { catchOf, isoDay, type OwnRule, type RuleSet, type Rules, rules } from "./rules";

const t = text.fish.rules;

const withSet = (all: Rules, id: string, change: (set: RuleSet) => RuleSet): Rules => ({
  ...all,
  sets: all.sets.map((set) => (set.id === id ? change(set) : set)),
});

export const changeSet = (id: string, patch: Partial<RuleSet>): void =>
  rules.set(withSet(rules.value, id, (set) => ({ ...set, ...patch })));

/** The rule with a change; what decides over fish is the skipper's own from then on. */
export const changed = (rule: OwnRule, patch: Partial<OwnRule>): OwnRule => ({
  ...rule,
  own: true,
  ...patch,
});

export function putRule(set: string, rule: OwnRule): void {
  const before = rules.value;
  const old = before.sets.find(({ id }) => id === set)?.rules.find(({ id }) => id === rule.id);
  const next = withSet(before, set, (one) => ({
    ...one,
    rules: one.rules.map((other) => (other.id === rule.id ? rule : other)),
  }));
  // Waters that have another name now are still where the boat is.
  const waters = old && before.waters === old.waters ? rule.waters : before.waters;
  rules.set({ ...next, waters });
}

const ofLastCheck = ["not checked for a year", "never checked"];

/** These rules of a set were looked up today and are so, whatever their own first or last day said against it. */
export const stillHolds = (of: RuleSet, aged: readonly Aged[]): void =>
  rules.set(
    withSet(rules.value, of.id, (set) => ({
      ...set,
      rules: set.rules.map((rule) => {
        const old = aged.find((one) => of.rules[one.rule]?.id === rule.id);
        if (!old) return rule;
        const without = (date: string) => (date === old.date && !ofLastCheck.includes(old.why) ? "" : date);
        const { validFrom, validTo } = rule;
        return { ...rule, checkedOn: isoDay(), validFrom: without(validFrom), validTo: without(validTo) };
      }),
    })),
  );

/** What is wrong with a rule. */
export async function judgeRule(set: RuleSet, rule: OwnRule): Promise<Problem[]> {
  const only = { ...set, rules: [rule] };
  const asked = { species: rule.species, length: 0.5, byPerson: 0, byBoat: 0, aboard: 1 };
  try {
    await desk.ask("keep", { ...catchOf(only, rule.waters, asked), asKept: false });
    return [];
  } catch (fault) {
    if (fault instanceof Refused) return fault.problems;
    // What cannot be judged now is judged with the next fish.
    if (fault instanceof Died) return [];
    throw fault;
  }
}

/** A set of one's own, with a rule to begin with: none may be kept until it says so. Returns its id. */
export const addSet = (): string => begin(t.newSet, isoDay(), emptyRule());

/** A set for a state's waters, to be filled in. Returns its id. */
export const addStateSet = (state: string): string =>
  begin(t.stateName(state), "", { ...emptyRule(), waters: t.stateWaters(state) });

function begin(name: string, asOf: string, rule: OwnRule): string {
  const id = newId();
  rules.set({ ...rules.value, sets: [...rules.value.sets, { id, name, asOf, rules: [rule] }] });
  return id;
}

const emptyRule = (): OwnRule => ({
  id: newId(),
  own: true,
  species: Object.keys(text.notes.choices.fish ?? {})[0] ?? "",
  waters: t.newWaters,
  from: { month: 1, day: 1 },
  to: { month: 12, day: 31 },
  min: 0,
  minKept: true,
  max: 0,
  maxKept: false,
  bags: [{ count: 0, per: "person" }],
  noFishing: false,
  gear: "",
  note: "",
  source: "",
  statesOwn: false,
  validFrom: "",
  validTo: "",
  checkedOn: "",
});

/** One more rule of a set, like its last one. Returns its id. */
export function addRule(set: RuleSet): string {
  const rule = { ...(set.rules.at(-1) ?? emptyRule()), id: newId(), own: true };
  changeSet(set.id, { rules: [...set.rules, rule] });
  return rule.id;
}

export function removeRule(set: RuleSet, rule: OwnRule): void {
  const before = rules.value;
  changeSet(set.id, { rules: set.rules.filter(({ id }) => id !== rule.id) });
  offerUndo(t.removed(fromDesk(rule.waters)), () => rules.set(before));
}

export function removeSet(set: RuleSet): void {
  const before = rules.value;
  rules.set({ ...before, sets: before.sets.filter(({ id }) => id !== set.id) });
  offerUndo(t.removed(fromDesk(set.name)), () => rules.set(before));
}
