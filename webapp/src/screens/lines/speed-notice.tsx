/** What Pace has to tell on Lines. */
import type { Verdict } from "../../base/desk/types/towline.gen";
import { Act, BriefNotice, Notice } from "../../base/parts/notice";
import { useSeconds } from "../../base/parts/seconds";
import { since } from "../../base/position/moment";
import { announcing } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { about, age } from "../../base/units/show";
import { follow, offBand, takeOnce, type Unsure, unsure } from "../../state/pace/follow";
import { holds } from "../../state/pace/motion";
import { pace } from "../../state/pace/pace";
import { paceSettings } from "../../state/pace/settings";
import { spread } from "../../state/spread/spread";

const t = text.lines.speed;

export function SpeedNotice() {
  const off = offBand.value;
  if (paceSettings.value.follow) return unsure.value === undefined ? <Lost /> : <Stays why={unsure.value} />;
  // What was just done is told first.
  if (!off || announcing.value) return null;
  const verdicts = [...new Set(off.rods.map(({ verdict }) => verdict))];
  const rodsAt = (verdict: Verdict) =>
    off.rods.filter((rod) => rod.verdict === verdict).map(({ number }) => number);
  const [now, set] = [about("speed", off.speed, 0.1), about("speed", spread.value.speed, 0.1)];
  return (
    <BriefNotice
      brief={t.brief(now, set)}
      act={<Act onTap={() => takeOnce(off)}>{t.take}</Act>}
      more={off.currentKnown && <Act onTap={follow}>{t.follow}</Act>}
    >
      {t.differs(now, set)}{" "}
      {verdicts.map((verdict) => t.off(text.lines.verdicts[verdict], rodsAt(verdict))).join(" ")}
      {!off.currentKnown && ` ${t.guess}`}
    </BriefNotice>
  );
}

/** Lines follows a speed that is not known well enough to let out line by. */
function Stays({ why }: { why: Unsure }) {
  const set = about("speed", spread.value.speed, 0.1);
  return <Notice>{why === "few fixes" ? t.fewFixes(set) : t.unsure(about("speed", why, 0.1), set)}</Notice>;
}

/** Lines follows a speed that has not come for a while. */
function Lost() {
  useSeconds();
  const now = pace.value;
  if (now && holds(now.motion)) return null;
  return <Notice>{t.lost(now ? age(since(now.motion.at)) : "–")}</Notice>;
}
