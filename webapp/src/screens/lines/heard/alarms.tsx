/** What must be told of the instruments wherever one is: alarms, and what to do. */
import { Act, Notice } from "../../../base/parts/notice";
import { useSeconds } from "../../../base/parts/seconds";
import { text } from "../../../base/text/text";
import { age, amount } from "../../../base/units/show";
import { alarms, isSilent, type Kind, onBottom, tooLongOutside } from "../../../state/alarms/alarms";
import { ageOfLost, lost, noteLost, type Part } from "../../../state/instruments/taken";
import { wheelNow } from "../../../state/pace/wheel";
import { spread } from "../../../state/spread/spread";
import { Quiet } from "./quiet";

const t = text.instruments;

/** Whether it is so, and nobody has put it off. */
const isTold = (kind: Kind) => alarms.value.includes(kind) && !isSilent(kind);

const outside = () => (isTold("speed") ? tooLongOutside.value : undefined);

/** Whether any of them is told. */
export const instrumentsAlarmed = () =>
  lost.value.length > 0 || isTold("bottom") || isTold("wheel") || outside() !== undefined;

export function InstrumentAlarms() {
  useSeconds();
  const off = outside();
  const state = wheelNow.value?.state;
  return (
    <>
      <Lost />
      {isTold("bottom") && (
        <Notice alarm actions={<Quiet kind="bottom" />}>
          {t.onBottom(onBottom.value)}
        </Notice>
      )}
      {isTold("wheel") && (
        <Notice alarm actions={<Quiet kind="wheel" />}>
          {state === "stands" ? t.stands : t.drags}
        </Notice>
      )}
      {off && (
        <Notice alarm actions={<Quiet kind="speed" />}>
          {t.outside[off]}
        </Notice>
      )}
    </>
  );
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
        lost.value.map(({ part }) => t.parts[part]),
        age(ageOfLost(first)),
      )}{" "}
      {is("depth") && t.lostDepth(amount("depth", spread.value.bottom))} {is("speed") && t.lostSpeed}
    </Notice>
  );
}
