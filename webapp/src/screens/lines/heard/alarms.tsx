/** What must be told of the instruments wherever one is: alarms, and what to do. */
import { Act, Notice } from "../../../base/parts/notice";
import { useSeconds } from "../../../base/parts/seconds";
import { text } from "../../../base/text/text";
import { age, amount } from "../../../base/units/show";
import { alarms, isSilent, onBottom, tooLongOutside } from "../../../state/alarms/alarms";
import { ageOfLost, lost, noteLost, type Part } from "../../../state/instruments/taken";
import { wheelNow } from "../../../state/pace/wheel";
import { spread } from "../../../state/spread/spread";
import { Quiet } from "./quiet";

const t = text.instruments;

export function InstrumentAlarms() {
  useSeconds();
  const now = alarms.value;
  const state = wheelNow.value?.state;
  return (
    <>
      <Lost />
      {now.includes("bottom") && !isSilent("bottom") && (
        <Notice alarm actions={<Quiet kind="bottom" />}>
          {t.onBottom(onBottom.value.join(", "))}
        </Notice>
      )}
      {now.includes("wheel") && !isSilent("wheel") && (
        <Notice alarm actions={<Quiet kind="wheel" />}>
          {state === "stands" ? t.stands : t.drags}
        </Notice>
      )}
      {now.includes("speed") && !isSilent("speed") && tooLongOutside.value && (
        <Notice alarm actions={<Quiet kind="speed" />}>
          {t.outside[tooLongOutside.value]}
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
