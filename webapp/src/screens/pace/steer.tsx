/** What to steer to make good a track. */
import { useSignal } from "@preact/signals";
import { useAnswer } from "../../base/desk/ask";
import { sayOther } from "../../base/parts/input/problem";
import { Stepper } from "../../base/parts/input/stepper";
import { Page } from "../../base/parts/page";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { about, banded } from "../../base/units/show";
import { course, turned } from "../../base/units/when";
import { currentNow } from "../../state/pace/current/found";
import { predictedNow } from "../../state/pace/current/predicted";
import { motion } from "../../state/pace/motion";
import { spread } from "../../state/spread/spread";

const t = text.pace.steering;

export function SteerPage() {
  const current = currentNow();
  const tables = predictedNow();
  return (
    <Page title={t.title} back={href("pace")}>
      <p>{t.what}</p>
      {current || tables ? (
        <Steering current={current} tables={tables} />
      ) : (
        <p class="large-words">{t.unknown}</p>
      )}
      <p class="soft">{t.compass}</p>
    </Page>
  );
}

interface Known {
  current: ReturnType<typeof currentNow>;
  tables: ReturnType<typeof predictedNow>;
}

function Steering({ current, tables }: Known) {
  const track = useSignal(motion.peek()?.course ?? 0);
  const { speed } = spread.value;
  // An age to the minute: the answer does not change by the second.
  const asked = current && { ...current, age: Math.floor((current.age ?? 0) / 60) * 60 };
  const { answer, problem } = useAnswer("steer", {
    ...(asked && { current: asked }),
    ...(tables && { predicted: tables }),
    track: track.value,
    speed,
  });
  return (
    <>
      <Stepper
        label={t.track}
        quantity="angle"
        si={track.value}
        step={turned}
        onChange={(si) => {
          track.value = turned(si);
        }}
      />
      {problem && <p role="alert">{sayOther(problem)}</p>}
      {answer &&
        (answer.why ? (
          <p class="large-words">{t.why[answer.why]}</p>
        ) : (
          <>
            <p class="readout huge">{t.heading(course(answer.heading.mid))}</p>
            <p>{t.made(banded("speed", answer.made), about("speed", speed, 0.1))}</p>
          </>
        ))}
    </>
  );
}
