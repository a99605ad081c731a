/** How hard a line pulls: read at the dock from the drag as it was set under way, no hand near loaded wire. */
import { useRef } from "preact/hooks";
import { limits } from "../../../base/desk/types/calibrate.gen";
import { limits as towed } from "../../../base/desk/types/towline.gen";
import { Gone } from "../../../base/parts/gone";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { about, amount } from "../../../base/units/show";
import { type Pulling, setTeaching, teaching } from "../../../state/calibrate/teaching";
import { answerFor, solved } from "../../../state/spread/solved";
import { spread } from "../../../state/spread/spread";
import { teachReading } from "./observed";

const t = text.teach.pull;

export function PullPage({ id }: { id: string }) {
  const rod = spread.value.rods.find((r) => r.id === id);
  const reckoned = rod && answerFor(solved.value, rod)?.tip?.tension;
  const begun = useRef({
    rod: id,
    lineOut: rod?.lineOut ?? 60,
    speed: spread.value.speed,
    pull: reckoned ?? 10,
  });
  const { pulling } = teaching();
  // It is read at the dock: by then the speed on Lines may be another, and the line may be in.
  const then = pulling?.rod === id ? pulling : begun.current;
  const set = (patch: Partial<Pulling>) => setTeaching({ pulling: { ...then, ...patch } });
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
            si={then.pull}
            limits={{ min: 0.5, max: limits.Observation.pull.max }}
            step={(si, by) => Math.max(0.5, si + by * 2.2241108)}
            onChange={(pull) => set({ pull })}
          />
          <p class="soft">{t.was(amount("line", then.lineOut), about("speed", then.speed, 0.1))}</p>
          <button
            type="button"
            class="button primary"
            onClick={once(() => {
              const { lineOut, speed, pull } = then;
              teachReading({ ...rod, lineOut }, "pull", pull, 0, speed);
              setTeaching({ pulling: null });
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
        si={then.lineOut}
        limits={towed.Rod.lineOut}
        onChange={(lineOut) => set({ lineOut })}
      />
      <LimitedStepper
        label={t.speed}
        quantity="speed"
        si={then.speed}
        limits={towed.Sea.speed}
        onChange={(speed) => set({ speed })}
      />
    </Page>
  );
}
