/** Asks, once, whether the app shall go by what the instruments tell. */
import { computed } from "@preact/signals";
import type { Told } from "../../../base/parts/around";
import { Act, BriefNotice } from "../../../base/parts/notice";
import { offerUndo } from "../../../base/shell/undo";
import { text } from "../../../base/text/text";
import { about, amount } from "../../../base/units/show";
import { depthHeard, valueHeard } from "../../../state/instruments/heard";
import { isHeard, parts, take, taken } from "../../../state/instruments/taken";
import { paceSettings, set } from "../../../state/pace/settings";

const t = text.instruments;

/** What is heard of that the app can go by, in words. */
function words(): string[] {
  const [depth, speed, warmth] = [depthHeard.value, valueHeard("waterSpeed"), valueHeard("waterTemperature")];
  return [
    ...(depth ? [t.depth(amount("depth", depth.value))] : []),
    ...(speed ? [t.speed(about("speed", speed.value, 0.1))] : []),
    ...(warmth ? [t.warmth(about("temperature", warmth.value, 1))] : []),
  ];
}

/** Whether any of it is heard; the words alone are drawn anew with each that the instruments say. */
const any = computed(() => parts.some(isHeard));

const Offered = () => <>{t.offer(words())}</>;

export function instrumentsTold(): Told | undefined {
  if (taken.value.asked) return undefined;
  if (!any.value) return undefined;
  return {
    short: t.offerBrief,
    whole: (
      <BriefNotice
        key="instruments"
        brief={t.offerBrief}
        act={<Act onTap={goByAll}>{t.use}</Act>}
        more={<Act onTap={() => take({ asked: true })}>{t.not}</Act>}
      >
        <Offered />
      </BriefNotice>
    ),
  };
}

function goByAll(): void {
  const [before, { follow }] = [taken.value, paceSettings.value];
  take({ depth: true, speed: true, warmth: true, asked: true });
  set({ follow: true });
  offerUndo(t.used, () => {
    taken.set({ ...before, asked: true });
    set({ follow });
  });
}
