/** What the temperatures of the day have done to the keeping of a fish. */

import { useAnswer } from "../../../base/desk/ask";
import { type HistoryAnswer, limits } from "../../../base/desk/types/chill.gen";
import { FirstSet } from "../../../base/parts/first-set";
import { Cross, Plus } from "../../../base/parts/icons";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { saySomewhere } from "../../../base/parts/input/problem";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { fromDesk, text } from "../../../base/text/text";
import { numeral, rounded } from "../../../base/units/show";
import { firstSamples, samples } from "../../../state/fish/keeping";
import { roughly } from "../parts/times";

const t = text.fish.keeping;

export function KeepingPage() {
  const all = samples.value;
  const { answer, problem } = useAnswer("keeping", { samples: all });
  const change = (i: number, patch: Partial<(typeof all)[number]>) =>
    samples.set(all.map((one, k) => (k === i ? { ...one, ...patch } : one)));
  const add = () => {
    const { time, temperature } = all.at(-1) ?? { time: 0, temperature: 0 };
    samples.set([...all, { time: Math.min(time + 3600, limits.Sample.time.max), temperature }]);
  };
  return (
    <Page title={t.title} back={href("fish")}>
      {problem && <p role="alert">{saySomewhere(problem)}</p>}
      {answer && <Answer of={answer} />}
      <p>{t.what}</p>
      <ol class="form">
        {all.map((sample, i) => (
          <li key={i} class="form sample">
            <LimitedStepper
              label={t.at}
              quantity="hours"
              si={sample.time}
              limits={{
                min: all[i - 1]?.time ?? 0,
                max: all[i + 1]?.time ?? limits.Sample.time.max,
              }}
              onChange={(time) => change(i, { time })}
            />
            <LimitedStepper
              label={t.temperature}
              quantity="temperature"
              si={sample.temperature}
              limits={limits.Sample.temperature}
              onChange={(temperature) => change(i, { temperature })}
            />
            {all.length > 1 && (
              <button
                type="button"
                class="button"
                onClick={once(() => samples.set(all.filter((_, k) => k !== i)))}
              >
                <Cross /> {t.remove(i + 1)}
              </button>
            )}
          </li>
        ))}
      </ol>
      <button type="button" class="button" onClick={once(add)}>
        <Plus /> {t.add}
      </button>
      <FirstSet
        kept={samples}
        first={firstSamples}
        is={JSON.stringify(all) === JSON.stringify(firstSamples)}
      />
      <p class="soft">{t.source}</p>
    </Page>
  );
}

/** Up to this the formula was made, °C. */
const warmest = 25;

function Answer({ of }: { of: HistoryAnswer }) {
  const { spent, rate, yardsticks, beyond } = of;
  const zero = rounded("temperature", 0);
  return (
    <section class="form" role="status">
      <p class="large-words">{t.spent(roughly(spent.mid), roughly(spent.low), roughly(spent.high), zero)}</p>
      <p>{t.rate(numeral(rate.mid, 0.1), zero)}</p>
      {beyond && <p class="notice">{t.beyond(zero, rounded("temperature", warmest))}</p>}
      <dl class="facts">
        {yardsticks.map(({ fish, left, source }) => (
          <div key={fish}>
            <dt>{t.of(fromDesk(fish), fromDesk(source))}</dt>
            <dd>{left.mid > 0 ? t.left(roughly(Math.max(left.low, 0)), roughly(left.high)) : t.gone}</dd>
          </div>
        ))}
      </dl>
      <p>{t.yardstick}</p>
    </section>
  );
}
