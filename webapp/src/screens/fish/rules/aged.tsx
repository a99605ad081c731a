/** A rule that is too old to be gone by: said above everything, with what makes it good again. */

import type { Aged } from "../../../base/desk/types/fish.gen";
import { Warning } from "../../../base/parts/icons";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import { text } from "../../../base/text/text";
import { stillHolds } from "../../../state/rules/change";
import { type RuleSet, rules } from "../../../state/rules/rules";

const t = text.fish.aged;

/** “Checked 2024-01: look it up today”. */
export const agedWords = ([first]: Aged[]): string => (first ? t.whys[first.why](first.date) : "");

interface Props {
  aged: Aged[];
  set: RuleSet;
}

/** Where it was looked up, one tap says so; where it has changed, the rule is a tap away. */
export function LookedUp({ aged, set }: Props) {
  const [first] = aged.flatMap(({ rule }) => set.rules[rule] ?? []);
  if (!first) return null;
  const holds = () => {
    const before = rules.value;
    stillHolds(set, aged);
    offerUndo(t.held, () => rules.set(before));
  };
  return (
    <div class="notice">
      <p>{t.how}</p>
      <div class="notice-actions">
        <button type="button" class="button" onClick={once(holds)}>
          {t.holds}
        </button>
        <a class="button" href={href("fish", "rule", `${set.id}.${first.id}`)}>
          {t.changed}
        </a>
      </div>
    </div>
  );
}

/** Large, over rules that are shown. */
export const AgedSign = ({ aged }: { aged: Aged[] }) =>
  aged.length > 0 ? (
    <p class="notice aged">
      <span>
        <Warning /> <b>{agedWords(aged)}</b>
      </span>
    </p>
  ) : null;
