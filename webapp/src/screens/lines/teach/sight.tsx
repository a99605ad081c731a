/** The angle of the wire at the rod tip, by the phone's own tilt or typed; or where the wire enters the water. */
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { type HeldAnswer, limits } from "../../../base/desk/types/calibrate.gen";
import { Gone } from "../../../base/parts/gone";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { Page } from "../../../base/parts/page";
import { useSeconds } from "../../../base/parts/seconds";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { about, numeral } from "../../../base/units/show";
import { angleOf, gather, heldFor, mayFeel } from "../../../state/calibrate/tilt";
import { answerFor, solved } from "../../../state/spread/solved";
import { type Rod, spread } from "../../../state/spread/spread";
import { teachReading } from "./observed";

const t = text.teach.sight;

export function SightPage({ id }: { id: string }) {
  const rod = spread.value.rods.find((r) => r.id === id);
  if (!rod) return <Gone back={href("lines")} />;
  return (
    <Page title={t.title} back={href("lines", "teach")}>
      <Drawing />
      {t.how.map((words) => (
        <p key={words}>{words}</p>
      ))}
      <p class="notice">{text.cautions.short}</p>
      <ByTilt rod={rod} />
      <Typed rod={rod} />
    </Page>
  );
}

type State = { at: "rest" | "denied" } | { at: "holding"; until: number } | { at: "read"; tilt: HeldAnswer };

function ByTilt({ rod }: { rod: Rod }) {
  useSeconds();
  const state = useSignal<State>({ at: "rest" });
  const stop = useRef<() => void>(() => undefined);
  useEffect(() => () => stop.current(), []);
  const start = async () => {
    if (!(await mayFeel())) {
      state.value = { at: "denied" };
      return;
    }
    state.value = { at: "holding", until: Date.now() + heldFor };
    stop.current = gather(async (held) => {
      const tilt = await angleOf(held);
      state.value = tilt ? { at: "read", tilt } : { at: "denied" };
    });
  };
  const now = state.value;
  const steady = now.at === "read" && !now.tilt.swings;
  const use = () => {
    if (now.at !== "read") return;
    teachReading(rod, "angle", now.tilt.angle, now.tilt.doubt);
    goInstead("lines", "teach");
  };
  return (
    <section class="form">
      {now.at === "denied" && <p role="alert">{t.denied}</p>}
      {now.at === "read" && (
        <p class="large-words" role="status">
          {steady
            ? t.read(about("angle", now.tilt.angle, 0.1), about("angle", now.tilt.spread, 0.1))
            : t.swings(about("angle", now.tilt.spread, 0.1))}
        </p>
      )}
      {now.at === "holding" ? (
        <p class="large-words" role="status">
          {t.holding(numeral(Math.max(0, Math.ceil((now.until - Date.now()) / 1000))))}
        </p>
      ) : (
        <button type="button" class="button primary" onClick={once(start)}>
          {now.at === "read" ? t.again : t.start}
        </button>
      )}
      {steady && (
        <button type="button" class="button primary" onClick={once(use)}>
          {t.use}
        </button>
      )}
    </section>
  );
}

function Typed({ rod }: { rod: Rod }) {
  const reckoned = answerFor(solved.value, rod)?.tip;
  const angle = useSignal(reckoned?.angle ?? 0.12);
  const entry = useSignal(reckoned?.airLength ?? 10);
  const taughtThen = () => goInstead("lines", "teach");
  return (
    <>
      <LimitedStepper
        label={t.typed}
        quantity="angle"
        si={angle.value}
        limits={{ min: 0.01, max: limits.Observation.angle.max }}
        onChange={(si) => {
          angle.value = si;
        }}
      />
      <button
        type="button"
        class="button"
        onClick={once(() => {
          teachReading(rod, "angle", angle.value);
          taughtThen();
        })}
      >
        {t.use}
      </button>
      <LimitedStepper
        label={t.entry}
        quantity="line"
        si={entry.value}
        limits={{ min: 0.5, max: limits.Observation.entry.max }}
        onChange={(si) => {
          entry.value = si;
        }}
      />
      <p class="soft">{t.entryWhat}</p>
      <button
        type="button"
        class="button"
        onClick={once(() => {
          teachReading(rod, "entry", entry.value);
          taughtThen();
        })}
      >
        {t.useEntry}
      </button>
    </>
  );
}

/** A rod, its wire to the water, and the phone held along it, clear of it. */
const Drawing = () => (
  <svg class="drawing" viewBox="0 0 320 130" aria-hidden="true">
    <path d="M20 104H300" />
    <path d="M262 104l18 -44" />
    <path d="M262 60L60 104" stroke-dasharray="7 5" />
    <g transform="rotate(-12.3 176 56)">
      <rect x="140" y="46" width="72" height="20" rx="3" />
    </g>
    <path d="M176 70v16M170 80l6 6 6 -6" />
  </svg>
);
