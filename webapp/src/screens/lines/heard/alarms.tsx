/** What must be told of the instruments wherever one is: alarms, and what to do. */
import type { ComponentChildren } from "preact";
import type { Told } from "../../../base/parts/around";
import { Act, Notice } from "../../../base/parts/notice";
import { text } from "../../../base/text/text";
import { age, amount } from "../../../base/units/show";
import { alarms, isSilent, type Kind, kinds, onBottom, tooLongOutside } from "../../../state/alarms/alarms";
import { ageOfLost, lost, noteLost, type Part } from "../../../state/instruments/taken";
import { unsure } from "../../../state/pace/follow";
import { holds } from "../../../state/pace/motion";
import { pace } from "../../../state/pace/pace";
import { wheelNow } from "../../../state/pace/wheel";
import { spread } from "../../../state/spread/spread";
import { Quiet } from "./quiet";

const t = text.instruments;

/** Whether it is so, and nobody has put it off. */
const isTold = (kind: Kind) => alarms.value.includes(kind) && !isSilent(kind);

const outside = () => (isTold("speed") ? tooLongOutside.value : undefined);

/** Those that are told now, the weightiest first. */
export function instrumentAlarms(): Told[] {
  const off = outside();
  const state = wheelNow.value?.state;
  const said: { [K in Kind]?: ComponentChildren } = {
    bottom: isTold("bottom") && t.onBottom(onBottom.value),
    wheel: isTold("wheel") && `${state === "stands" ? t.stands : t.drags} ${speedWords()}`,
    speed: off && t.outside[off],
  };
  return kinds.flatMap((kind) => {
    const words = said[kind];
    const whole =
      kind === "lost"
        ? lost.value.length > 0 && <Lost />
        : words && (
            <Notice alarm actions={<Quiet kind={kind} />}>
              {words}
            </Notice>
          );
    return whole ? [{ short: text.alarms.said[kind], whole }] : [];
  });
}

/** What Lines goes by for speed while the wheel's does not count. */
function speedWords(): string {
  const now = pace.value;
  return now && holds(now.motion) && now.currentKnown && unsure.value === undefined
    ? t.lostSpeed
    : t.lostSpeedToo(amount("speed", spread.value.speed));
}

/** All that is not heard any more, and what is gone by instead. */
function Lost() {
  const [first] = lost.value;
  if (!first) return null;
  const is = (part: Part) => lost.value.some((one) => one.part === part);
  return (
    <Notice
      alarm
      actions={
        <>
          <Act onTap={noteLost}>{text.notices.noted}</Act>
          <Quiet kind="lost" />
        </>
      }
    >
      {t.lost(
        lost.value.map(({ part }) => text.heard.parts[part]),
        age(ageOfLost(first)),
      )}{" "}
      {is("depth") && t.lostDepth(amount("depth", spread.value.bottom))} {is("speed") && speedWords()}
    </Notice>
  );
}
