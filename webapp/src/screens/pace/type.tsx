/** Speed and course by hand, where this phone's receiver does not tell them. */
import { limits } from "../../base/desk/types/current.gen";
import { LimitedStepper } from "../../base/parts/input/limited";
import { Stepper } from "../../base/parts/input/stepper";
import { Page } from "../../base/parts/page";
import { useSeconds } from "../../base/parts/seconds";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { units } from "../../base/units/settings";
import { age } from "../../base/units/show";
import { onGrid, scaleOf } from "../../base/units/units";
import { turned } from "../../base/units/when";
import { motion, type Typed, typed } from "../../state/pace/motion";
import { spread } from "../../state/spread/spread";

const t = text.pace.typing;

export function TypePage() {
  useSeconds();
  const now: Typed = typed.value ?? {
    speed: motion.value ? onGrid(motion.value.speed, scaleOf("speed", units())) : spread.value.speed,
    course: motion.value?.course ?? 0,
    at: 0,
  };
  const tell = (patch: Partial<Typed>) => typed.set({ ...now, ...patch, at: Date.now() });
  return (
    <Page title={t.title} back={href("pace")}>
      <p>{t.what}</p>
      <LimitedStepper
        label={t.speed}
        quantity="speed"
        si={now.speed}
        limits={limits.Throttle.speed}
        onChange={(speed) => tell({ speed })}
      />
      <Stepper
        label={t.course}
        quantity="angle"
        si={now.course}
        step={turned}
        onChange={(course) => tell({ course: turned(course) })}
      />
      {typed.value && (
        <>
          <p role="status">{text.pace.typedAgo(age(Math.max(0, Date.now() - typed.value.at)))}</p>
          <button type="button" class="button" onClick={once(() => typed.set(null))}>
            {t.forget}
          </button>
        </>
      )}
      <button type="button" class="button primary" onClick={once(() => tell({}))}>
        {t.again}
      </button>
    </Page>
  );
}
