/** The slowest speed at which nothing of this rod's line lies on the bottom. */
import { gear, pick } from "../gear/gear";
import { placeName } from "../gear/names";
import { Gone } from "../parts/gone";
import { Page } from "../parts/page";
import { sayOther } from "../parts/problem";
import { href } from "../shell/route";
import { text } from "../text/text";
import { amount, banded } from "../units/show";
import { useAnswer } from "./ask";
import { doubtNow } from "./doubt";
import { rodFor, seaFor } from "./request";
import { type Rod, type Spread, spread } from "./spread";
import { properties } from "./water";

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
            {answer.high >= now.speed && <p>{t.already(amount("speed", now.speed))}</p>}
            <p>{t.part(text.lines.parts[answer.part] ?? answer.part)}</p>
          </>
        ))}
      <p class="soft">{t.turns}</p>
    </Page>
  );
}
