/** Stands wherever rules are shown: they are defaults, and those in force come first. */
import { Warning } from "../../../base/parts/icons";
import { text } from "../../../base/text/text";
import { isoDay, type OwnRule, type RuleSet, watersNow } from "../../../state/rules/rules";

const t = text.fish.rules;

/** What rules of this set are worth: of which date they are, who set them, and when they were looked up. */
export function cautionWords({ rules, asOf }: RuleSet): string {
  const here = ofWaters(rules);
  const own = rules.some((rule) => rule.own);
  if (isLookedUp(here)) return own ? t.lookedUpOwn : t.lookedUp;
  const [oldest = ""] = (here.length > 0 ? here : rules).map(({ checkedOn }) => checkedOn).sort();
  if (own) return t.cautionOwn(oldest);
  // A day of the month that the set is of is later than that month, and is what it is worth.
  return oldest > asOf ? t.cautionChecked(oldest) : t.caution(asOf);
}

/** Those of the waters chosen. */
const ofWaters = (rules: OwnRule[]): OwnRule[] => rules.filter(({ waters }) => waters === watersNow());

const isLookedUp = (here: OwnRule[]): boolean =>
  here.length > 0 && here.every(({ checkedOn }) => checkedOn === isoDay());

export function Caution({ set, short }: { set: RuleSet | undefined; short?: boolean }) {
  if (!set) return null;
  return (
    <p class="notice">
      <span>
        <Warning /> <b>{cautionWords(set)}</b> {(!short || isLookedUp(ofWaters(set.rules))) && t.ask}
      </span>
    </p>
  );
}
