/** The slowest speed at which nothing of this rod's line lies on the bottom. */

import { useAnswer } from "../../../base/desk/ask";
import { Gone } from "../../../base/parts/gone";
import { sayOther } from "../../../base/parts/input/problem";
import { Page } from "../../../base/parts/page";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { about, amount, banded } from "../../../base/units/show";
import { gear, pick } from "../../../state/gear/gear";
import { placeName } from "../../../state/gear/names";
import { doubtNow } from "../../../state/spread/doubt";
import { rodFor, seaFor } from "../../../state/spread/request";
import { type Rod, type Spread, spread } from "../../../state/spread/spread";
import { properties } from "../../../state/spread/water";

export function SlowPage({ id }: { id: string }) {
  const rod = spread.value.rods.find((r) => r.id === id);
  return rod ? <Slowest rod={rod} now={spread.value} /> : <Gone back={href("lines")} />;
}

function Slowest({ rod, now }: { rod: Rod; now: Spread }) {
  const { answer, problem } = useAnswer("touchspeed", {
    sea: seaFor(now, properties.value),
    doubt: doubtNow.value,
    rod: rodFor(gear.value, rod),
  });
  const t = text.lines.slow;
  return (
    <Page title={t.title(placeName(pick(gear.value.places, rod.place)))} back={href("lines")}>
      <p>{t.question(amount("line", rod.lineOut), amount("depth", now.bottom))}</p>
      {problem && <p role="alert">{sayOther(problem)}</p>}
      {answer &&
        (answer.why ? (
          <p class="large-words">{text.lines.why[answer.why]}</p>
        ) : (
          <>
            <p class="readout huge">{banded("speed", { ...answer, mid: answer.speed })}</p>
            {answer.high >= now.speed && <p>{t.already(about("speed", now.speed, 0.1))}</p>}
            <p>{t.part(text.lines.parts[answer.part] ?? answer.part)}</p>
          </>
        ))}
      <p class="soft">{t.turns}</p>
    </Page>
  );
}
