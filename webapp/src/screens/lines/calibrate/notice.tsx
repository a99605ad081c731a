/** On Lines: a touch contradicts the others. */
import { signal } from "@preact/signals";
import type { Told } from "../../../base/parts/around";
import { Act, BriefNotice } from "../../../base/parts/notice";
import { go } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { contradictions } from "../../../state/calibrate/touches";
import { strikeOut, strikeOutName } from "../../../state/log/saying/strike-out";
import { touchWords } from "./words";

const noted = signal<string[]>([]);

export function contradictionTold(): Told | undefined {
  const [odd] = contradictions.value.filter(({ touch }) => !noted.value.includes(touch.record.id));
  if (!odd) return undefined;
  const { touch } = odd;
  const t = text.calibrate;
  // Who has looked need not be told again.
  const look = () => {
    noted.value = [...noted.value, touch.record.id];
    go("lines", "touches");
  };
  const whole = (
    <BriefNotice
      key="contradiction"
      brief={t.contradictingOne}
      act={<Act onTap={look}>{t.look}</Act>}
      more={<Act onTap={() => strikeOut(touch.record)}>{strikeOutName(touch.record)}</Act>}
    >
      {t.contradicting(touchWords(touch))}
    </BriefNotice>
  );
  return { short: t.contradictingOne, whole };
}
