/** How hard a line pulls: read at the dock from the drag as it was set under way, no hand near loaded wire. */
import { useSignal } from "@preact/signals";
import { limits } from "../../../base/desk/types/calibrate.gen";
import { limits as towed } from "../../../base/desk/types/towline.gen";
import { Gone } from "../../../base/parts/gone";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { about, amount } from "../../../base/units/show";
import { answerFor, solved } from "../../../state/spread/solved";
import { spread } from "../../../state/spread/spread";
import { teachReading } from "./observed";

const t = text.teach.pull;

export function PullPage({ id }: { id: string }) {
  const rod = spread.value.rods.find((r) => r.id === id);
  const reckoned = rod && answerFor(solved.value, rod)?.tip?.tension;
  const pull = useSignal(reckoned ?? 10);
  // It is read at the dock: by then the speed on Lines may be another, and the line may be in.
  const then = useSignal({ lineOut: rod?.lineOut ?? 60, speed: spread.value.speed });
  if (!rod) return <Gone back={href("lines")} />;
  return (
    <Page
      title={t.title}
      back={href("lines", "teach")}
      deck={
        <>
          <LimitedStepper
            label={t.reads}
            quantity="pull"
            si={pull.value}
            limits={{ min: 0.5, max: limits.Observation.pull.max }}
            step={(si, by) => Math.max(0.5, si + by * 2.2241108)}
            onChange={(si) => {
              pull.value = si;
            }}
          />
          <p class="soft">
            {t.was(amount("line", then.value.lineOut), about("speed", then.value.speed, 0.1))}
          </p>
          <button
            type="button"
            class="button primary"
            onClick={once(() => {
              const { lineOut, speed } = then.value;
              teachReading({ ...rod, lineOut }, "pull", pull.value, 0, speed);
              goInstead("lines", "teach");
            })}
          >
            {t.use}
          </button>
        </>
      }
    >
      {t.how.map((words) => (
        <p key={words} class="large-words">
          {words}
        </p>
      ))}
      <p class="notice">{text.cautions.short}</p>
      <LimitedStepper
        label={t.lineOut}
        quantity="line"
        si={then.value.lineOut}
        limits={towed.Rod.lineOut}
        onChange={(lineOut) => {
          then.value = { ...then.value, lineOut };
        }}
      />
      <LimitedStepper
        label={t.speed}
        quantity="speed"
        si={then.value.speed}
        limits={towed.Sea.speed}
        onChange={(speed) => {
          then.value = { ...then.value, speed };
        }}
      />
    </Page>
  );
}
