/** What Pace has to tell on Lines. */
import type { Verdict } from "../../../base/desk/types/towline.gen";
import type { Told } from "../../../base/parts/around";
import { Act, BriefNotice, Notice } from "../../../base/parts/notice";
import { since } from "../../../base/position/moment";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { about, age } from "../../../base/units/show";
import { follow, offBand, takeOnce, type Unsure, unsure } from "../../../state/pace/follow";
import { holds } from "../../../state/pace/motion";
import { pace } from "../../../state/pace/pace";
import { paceSettings } from "../../../state/pace/settings";
import { spread } from "../../../state/spread/spread";

const t = text.lines.speed;

export function speedTold(): Told | undefined {
  if (paceSettings.value.follow) return unsure.value === undefined ? lostTold() : staysTold(unsure.value);
  const off = offBand.value;
  const from = pace.value;
  // No speed that has lapsed is offered, even when nothing comes after it.
  if (!off || !from || !holds(from.motion)) return undefined;
  const verdicts = [...new Set(off.rods.map(({ verdict }) => verdict))];
  const rodsAt = (verdict: Verdict) =>
    off.rods.filter((rod) => rod.verdict === verdict).map(({ number }) => number);
  const [now, set] = [about("speed", off.speed, 0.1), about("speed", spread.value.speed, 0.1)];
  const brief = t.brief(now, set);
  const whole = (
    <BriefNotice
      key="speed"
      brief={brief}
      act={<Act onTap={() => takeOnce(off)}>{t.take}</Act>}
      more={off.currentKnown && <Act onTap={follow}>{t.follow}</Act>}
    >
      {t.differs(now, set)}{" "}
      {verdicts.map((verdict) => t.off(text.lines.verdicts[verdict], rodsAt(verdict))).join(" ")}
      {!off.currentKnown && ` ${t.guess}`}
    </BriefNotice>
  );
  return { short: brief, whole };
}

/** Lines follows a speed that is not known well enough to let out line by. */
function staysTold(why: Unsure): Told {
  const set = about("speed", spread.value.speed, 0.1);
  const words = why === "few fixes" ? t.fewFixes(set) : t.unsure(about("speed", why, 0.1), set);
  const brief = t.staysBrief(set);
  const whole = (
    <BriefNotice
      key="stays"
      brief={brief}
      act={
        <a class="button" href={href("pace", "find")}>
          {t.find}
        </a>
      }
    >
      {words}
    </BriefNotice>
  );
  return { short: brief, whole };
}

/** Lines follows a speed that has not come for a while. */
function lostTold(): Told | undefined {
  const now = pace.value;
  if (now && holds(now.motion)) return undefined;
  return {
    short: t.lostBrief,
    whole: <Notice key="lost">{t.lost(now && age(since(now.motion.at)))}</Notice>,
  };
}
