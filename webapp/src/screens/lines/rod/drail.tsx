/** Which drail brings this rod's lure to the middle of the wanted band at the line it has out. */

import { useAnswer } from "../../../base/desk/ask";
import type { Band, DrailDepth } from "../../../base/desk/types/towline.gen";
import { Gone } from "../../../base/parts/gone";
import { Check } from "../../../base/parts/icons";
import { sayOther } from "../../../base/parts/input/problem";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { about, amount, banded, rounded } from "../../../base/units/show";
import { gear, pick } from "../../../state/gear/gear";
import { placeName } from "../../../state/gear/names";
import { stockOf } from "../../../state/plan/plan";
import { doubtNow } from "../../../state/spread/doubt";
import { rodFor, seaFor } from "../../../state/spread/request";
import { changeUndoably, solved } from "../../../state/spread/solved";
import { type Rod, type Spread, spread } from "../../../state/spread/spread";
import { properties } from "../../../state/spread/water";

export function DrailPage({ id }: { id: string }) {
  const rod = spread.value.rods.find((r) => r.id === id);
  if (!rod) return <Gone back={href("lines")} />;
  const aim = solved.value?.aim;
  return (
    <Page title={text.lines.drail.title(placeName(pick(gear.value.places, rod.place)))} back={href("lines")}>
      {aim === undefined ? <p>{text.lines.working}</p> : <Ladder rod={rod} now={spread.value} aim={aim} />}
    </Page>
  );
}

function Ladder({ rod, now, aim }: { rod: Rod; now: Spread; aim: number }) {
  const g = gear.value;
  const { answer, problem } = useAnswer("drail", {
    sea: seaFor(now, properties.value),
    doubt: doubtNow.value,
    depth: aim,
    rod: rodFor(g, { ...rod, drail: 0 }),
    above: pick(g.rigs, rod.rig).leaderLength,
  });
  const t = text.lines.drail;
  const outcome = (depth: Band) => {
    if (depth.mid <= 0) return t.skims;
    if (depth.mid >= now.bottom) return t.lies(banded("depth", depth));
    return depth.high >= now.bottom ? t.mayTouch(banded("depth", depth)) : t.reaches(banded("depth", depth));
  };
  const put = (mass: number) => {
    const place = placeName(pick(g.places, rod.place));
    changeUndoably(t.put(place, mass > 0 ? amount("weight", mass) : undefined), {
      rods: now.rods.map((r) => (r.id === rod.id ? { ...r, drail: mass, planned: null } : r)),
    });
    goInstead("lines");
  };
  // Without any told, all are as good as aboard.
  const stock = stockOf(g);
  const has = ({ mass }: DrailDepth) =>
    mass === 0 || stock.length === 0 || stock.some((one) => same(one.mass, mass));
  const rungs = answer?.ladder ?? [];
  const others = rungs.filter((rung) => !has(rung));
  const ladder = (of: DrailDepth[]) => (
    <ul class="ladder">
      {of.map(({ mass, depth }) => {
        const chosen = mass === answer?.chosen.mass;
        const safe = depth.high < now.bottom;
        return (
          <li key={mass}>
            <button
              type="button"
              class={chosen ? "button best" : "button"}
              aria-pressed={same(mass, rod.drail)}
              onClick={once(() => put(mass))}
            >
              <b>{mass > 0 ? amount("weight", mass) : text.lines.none}</b>
              <span>{outcome(depth)}</span>
              {same(mass, rod.drail) && <span class="verdict">{t.onNow}</span>}
              {chosen && (
                <span class={safe ? "verdict good" : "verdict off"}>
                  {safe && <Check />} {t.nearest}
                </span>
              )}
            </button>
          </li>
        );
      })}
    </ul>
  );
  return (
    <>
      <p>{t.question(amount("line", rod.lineOut), rounded("depth", aim), about("speed", now.speed, 0.1))}</p>
      {problem && <p role="alert">{sayOther(problem)}</p>}
      {answer?.why && <p>{text.lines.why[answer.why]}</p>}
      {ladder(rungs.filter(has))}
      {others.length > 0 && <h2>{t.notAboard}</h2>}
      {others.length > 0 && ladder(others)}
    </>
  );
}

/** Of one weight, as far as a scale tells: 1 g. */
const same = (a: number, b: number): boolean => Math.abs(a - b) < 1e-3;
