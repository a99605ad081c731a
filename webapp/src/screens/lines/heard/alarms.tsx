/** What must be told of the instruments wherever one is: alarms, and what to do. */
import { Act, Notice } from "../../../base/parts/notice";
import { useSeconds } from "../../../base/parts/seconds";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { age, amount } from "../../../base/units/show";
import { alarms, isSilent, onBottom, tooLongOutside } from "../../../state/alarms/alarms";
import { ageOfLost, lost, noteLost } from "../../../state/instruments/taken";
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
      {lost.value.map((one) => (
        <Notice
          key={one.part}
          alarm
          actions={
            <>
              <Act onTap={() => noteLost(one.part)}>{text.notices.noted}</Act>
              <Quiet kind="lost" />
              {one.part === "depth" && (
                <a class="button" href={href("lines", "rise")}>
                  {text.rise.sounder}
                </a>
              )}
            </>
          }
        >
          {t.lost(t.parts[one.part], age(ageOfLost(one)))}{" "}
          {one.part === "depth" ? t.lostDepth(amount("depth", spread.value.bottom)) : t.lostSpeed}
        </Notice>
      ))}
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
