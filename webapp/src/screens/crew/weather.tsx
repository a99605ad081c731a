/** Go or stay, by the skipper's own limits: typed ashore, when nobody is waiting at the dock. */

import { Check, Cross, On, Question } from "../../base/parts/icons";
import { useLate } from "../../base/parts/input/late";
import { LimitedStepper } from "../../base/parts/input/limited";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import type { Quantity } from "../../base/units/units";
import { mayChange } from "../../state/crew/role";
import { useRunningTrip } from "../../state/crew/use-trip";
import {
  forecastNow,
  judged,
  limits,
  setForecast,
  setLimit,
  verdict,
  type Weather,
} from "../../state/crew/weather";

const t = text.crew.weather;

const marks = { go: Check, stay: Cross, unknown: Question };

const mile = 1852;
const feet = 0.3048;

/** How each is read, and where stepping up begins. */
const scales: { [W in keyof Weather]: { quantity: Quantity; most: number; start: number; step?: number } } = {
  wind: { quantity: "speed", most: 60, start: 15 * (mile / 3600) },
  sea: { quantity: "craft", most: 30, start: 3 * feet },
  sight: { quantity: "sea miles", most: 100 * mile, start: 2 * mile },
};

const names = Object.keys(scales) as (keyof Weather)[];

export const WeatherLink = () => (
  <a class="button" href={href("crew", "weather")}>
    <span>
      {t.title} <small class="soft">{t.verdicts[verdict.value]}</small>
    </span>
    <On />
  </a>
);

export function WeatherPage() {
  useRunningTrip();
  const now = forecastNow.value;
  return (
    <Page title={t.title} back={href("crew", "list", "leaving")}>
      <Verdict />
      <h2>{t.today}</h2>
      <div class="form">
        {names.map((name) => (
          <Amount key={name} name={name} of={now} onSet={(value) => setForecast({ [name]: value })} />
        ))}
        <button
          type="button"
          class="button"
          aria-pressed={now.warning}
          onClick={once(() => setForecast({ warning: !now.warning }))}
        >
          {t.warning} {now.warning && <Check />}
        </button>
      </div>
      <h2>{t.limits}</h2>
      {mayChange() ? (
        <div class="form">
          {names.map((name) => (
            <Amount key={name} name={name} of={limits.value} onSet={(value) => setLimit(name, value)} />
          ))}
        </div>
      ) : null}
      <p class="soft">{t.own}</p>
    </Page>
  );
}

function Verdict() {
  const Mark = marks[verdict.value];
  const { beyond, open } = judged.value;
  return (
    <section class={verdict.value === "stay" ? "notice alarm" : "notice"} role="status">
      <p class="large-words">
        <Mark /> {t.verdicts[verdict.value]}
      </p>
      {beyond.length > 0 && <p>{t.beyond(beyond.map((name) => t.names[name]).join(", "))}</p>}
      {verdict.value === "unknown" && open.length > 0 && (
        <p>{t.open(open.map((name) => t.names[name]).join(", "))}</p>
      )}
    </section>
  );
}

interface AmountProps {
  name: keyof Weather;
  of: Weather;
  onSet: (value: number) => void;
}

function Amount({ name, of, onSet }: AmountProps) {
  const { quantity, most, start } = scales[name];
  const late = useLate(of[name], onSet);
  return (
    <LimitedStepper
      label={t.names[name]}
      quantity={quantity}
      si={late.value}
      limits={{ min: 0, max: most }}
      zero={t.notTold}
      onChange={(si) => late.change(late.value === 0 && si > 0 && si < start ? start : si)}
    />
  );
}
