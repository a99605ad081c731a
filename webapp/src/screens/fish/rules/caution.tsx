/** Stands wherever rules are shown: they are defaults, and those in force come first. */
import { Warning } from "../../../base/parts/icons";
import { text } from "../../../base/text/text";
import type { RuleSet } from "../../../state/rules/rules";

const t = text.fish.rules;

/** What rules of this set are worth: of which date they are, and who set them. */
export function cautionWords({ rules, asOf }: RuleSet): string {
  const checked = rules.map((rule) => rule.checkedOn).filter(Boolean);
  return rules.some((rule) => rule.own) ? t.cautionOwn(checked.sort()[0] ?? "") : t.caution(asOf);
}

export function Caution({ set, short }: { set: RuleSet | undefined; short?: boolean }) {
  if (!set) return null;
  return (
    <p class="notice">
      <span>
        <Warning /> <b>{cautionWords(set)}</b> {!short && t.ask}
      </span>
    </p>
  );
}
