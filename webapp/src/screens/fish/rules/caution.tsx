/** Stands wherever rules are shown: they are defaults, and those in force come first. */
import { Warning } from "../../../base/parts/icons";
import { text } from "../../../base/text/text";
import { isoDay, type OwnRule, type RuleSet, watersNow } from "../../../state/rules/rules";

const t = text.fish.rules;

/** What rules of this set are worth: of which date they are, who set them, and whether they were looked up today. */
export function cautionWords({ rules, asOf }: RuleSet): string {
  if (isLookedUp(rules)) return rules.some(({ own }) => own) ? t.lookedUpOwn : t.lookedUp;
  const checked = rules.map((rule) => rule.checkedOn).filter(Boolean);
  return rules.some((rule) => rule.own) ? t.cautionOwn(checked.sort()[0] ?? "") : t.caution(asOf);
}

/** Those of the waters chosen, all of them. */
function isLookedUp(rules: OwnRule[]): boolean {
  const here = rules.filter(({ waters }) => waters === watersNow());
  return here.length > 0 && here.every(({ checkedOn }) => checkedOn === isoDay());
}

export function Caution({ set, short }: { set: RuleSet | undefined; short?: boolean }) {
  if (!set) return null;
  return (
    <p class="notice">
      <span>
        <Warning /> <b>{cautionWords(set)}</b> {(!short || isLookedUp(set.rules)) && t.ask}
      </span>
    </p>
  );
}
