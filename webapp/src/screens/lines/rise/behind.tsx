/** Every lure has come to what was sounded last, and Lines goes by another depth: one tap sets it. */
import type { Told } from "../../../base/parts/around";
import { Act, BriefNotice } from "../../../base/parts/notice";
import { text } from "../../../base/text/text";
import { amount } from "../../../base/units/show";
import { behind, leaveBottom } from "../../../state/rise/behind";
import { changeUndoably } from "../../../state/spread/solved";
import { spread } from "../../../state/spread/spread";

const t = text.rise;

export function behindTold(): Told | undefined {
  const bottom = behind.value;
  if (bottom === undefined) return undefined;
  const [depth, set] = [amount("depth", bottom), amount("depth", spread.value.bottom)];
  const brief = t.behind(depth, set);
  const whole = (
    <BriefNotice
      key="behind"
      brief={brief}
      act={<Act onTap={() => changeUndoably(t.bottomSet(depth), { bottom })}>{t.setTo(depth)}</Act>}
      more={<Act onTap={leaveBottom}>{t.leaveIt(set)}</Act>}
    >
      {t.behindWhole(depth, set)}
    </BriefNotice>
  );
  return { short: brief, whole };
}
