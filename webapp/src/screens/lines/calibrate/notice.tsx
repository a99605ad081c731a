/** On Lines: a touch contradicts the others. */
import { signal } from "@preact/signals";
import { Act, BriefNotice } from "../../../base/parts/notice";
import { go } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { contradictions, strikeOut } from "../../../state/calibrate/touches";
import { touchWords } from "./words";

const noted = signal<string[]>([]);

export function ContradictionNotice() {
  const [odd] = contradictions.value.filter(({ touch }) => !noted.value.includes(touch.record.id));
  if (!odd) return null;
  const { touch } = odd;
  const t = text.calibrate;
  // Who has looked need not be told again.
  const look = () => {
    noted.value = [...noted.value, touch.record.id];
    go("lines", "touches");
  };
  return (
    <BriefNotice
      brief={t.contradictingOne}
      act={<Act onTap={look}>{t.look}</Act>}
      more={<Act onTap={() => strikeOut(touch)}>{t.strike}</Act>}
    >
      {t.contradicting(touchWords(touch))}
    </BriefNotice>
  );
}
