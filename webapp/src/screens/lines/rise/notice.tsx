/** A rise is ahead of the lures: when each is over it, and what to do. */

import { Act, Notice } from "../../../base/parts/notice";
import { useSeconds } from "../../../base/parts/seconds";
import { pose } from "../../../base/shell/pose";
import { href, route } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { about, lineAmount, numeral } from "../../../base/units/show";
import { depthHeard } from "../../../state/instruments/heard";
import { ordersOf } from "../../../state/rise/warning";
import { looked, noteRise, touchesAhead, warning } from "../../../state/rise/watch";
import { spread } from "../../../state/spread/spread";
import { Quiet } from "../heard/quiet";

const t = text.rise;

export function RiseNotice() {
  useSeconds();
  const now = warning.value;
  const at = looked.value?.at;
  if (!now || at === undefined) return null;
  const { first, whole, ready } = ordersOf(now);
  if (!first) return null;
  const gone = (Date.now() - at) / 1000;
  const also = now.rods
    .filter((one) => one !== first && one.touches && one.lineIn === 0 && now.speed > 0)
    .map(({ rod }) => rod + 1);
  const takenIn = now.rods.filter(({ lineIn }) => lineIn > 0);
  const lines = takenIn.map(({ rod, lineIn }, i) => t.lineOf(lineAmount(lineIn), rod + 1, i === 0));
  return (
    <Notice
      alarm={touchesAhead.value}
      actions={
        <>
          <Act onTap={noteRise}>{text.notices.noted}</Act>
          <Quiet kind="rise" />
          {!depthHeard.value && route.value[1] !== "rise" && (
            <a class="button to-sounder" href={href("lines", "rise")}>
              {t.sounder}
            </a>
          )}
        </>
      }
    >
      {t.ahead(about("depth", now.depth, 1), first.rod + 1, first.touches, seconds(first.in - gone))}{" "}
      {also.length > 0 && t.also(also)}
      <span class="rise-do">
        {now.speed > 0 && t.speed(about("speed", now.speed, 0.1))}{" "}
        {takenIn.length > 1 && rowsSay()
          ? t.asEach(now.speed > 0)
          : lines.length > 0 && t.takeIn(lines, now.speed > 0)}{" "}
        {whole.length > 0 && t.whole(whole)} {ready && t.ready}
      </span>
    </Notice>
  );
}

/** On Lines each row says its own, and all of them are in sight: said twice it would hide one. */
const rowsSay = (): boolean => {
  const [place = "lines", page] = route.value;
  return place === "lines" && page === undefined && pose.value !== "flow" && spread.value.rods.length <= 4;
};

/** Whole seconds near the rise, every fifth before, and never more than are left; undefined when it is there. */
export const seconds = (left: number): string | undefined => {
  if (left < 1) return undefined;
  const step = left > 10 ? 5 : 1;
  return numeral(Math.floor(left / step) * step);
};
