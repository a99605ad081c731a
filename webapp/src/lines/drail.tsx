/** Which drail brings this rod's lure to the middle of the wanted band at the line it has out. */
import { gear, pick } from "../gear/gear";
import { placeName } from "../gear/names";
import { Gone } from "../parts/gone";
import { Check } from "../parts/icons";
import { Page } from "../parts/page";
import { once } from "../shell/guard";
import { goInstead, href } from "../shell/route";
import { text } from "../text/text";
import { amount, asSureAs } from "../units/show";
import { useAnswer } from "./ask";
import { rodFor, seaFor } from "./request";
import { readouts } from "./rods";
import { type Rod, type Spread, spread } from "./spread";
import { answerFor, changeUndoably } from "./state";
import { properties } from "./water";

export function DrailPage({ id }: { id: string }) {
  const rod = spread.value.rods.find((r) => r.id === id);
  return rod ? <WhichDrail rod={rod} now={spread.value} /> : <Gone back={href("lines")} />;
}

function WhichDrail({ rod, now }: { rod: Rod; now: Spread }) {
  const g = gear.value;
  const wanted = now.bottom - (now.wanted.low + now.wanted.high) / 2;
  const { answer, problem } = useAnswer("drail", {
    sea: seaFor(now, properties.value),
    depth: wanted,
    rod: rodFor(g, { ...rod, drail: 0 }),
    above: pick(g.rigs, rod.rig).leaderLength,
  });
  // The band of the rod as it is says how far these depths can be trusted.
  const band = answerFor(readouts.value, rod)?.depth ?? { low: 0, mid: 0, high: 0 };
  const t = text.lines.drail;
  const outcome = (depth: number) => {
    if (depth <= 0) return t.skims;
    return depth < now.bottom ? t.reaches(asSureAs("depth", depth, band)) : t.lies;
  };
  const put = (mass: number) => {
    const place = placeName(pick(g.places, rod.place));
    changeUndoably(t.put(place, mass > 0 ? amount("weight", mass) : undefined), {
      rods: now.rods.map((r) => (r.id === rod.id ? { ...r, drail: mass } : r)),
    });
    goInstead("lines");
  };
  return (
    <Page title={t.title(placeName(pick(g.places, rod.place)))} back={href("lines")}>
      <p>
        {t.question(amount("line", rod.lineOut), asSureAs("depth", wanted, band), amount("speed", now.speed))}
      </p>
      {problem && <p role="alert">{text.problems.other(problem.text)}</p>}
      {answer?.why && <p>{text.lines.why[answer.why]}</p>}
      <ul class="ladder">
        {answer?.ladder.map((rung) => {
          const chosen = rung.mass === answer.chosen.mass;
          return (
            <li key={rung.mass}>
              <button
                type="button"
                class={chosen ? "button best" : "button"}
                onClick={once(() => put(rung.mass))}
              >
                <b>{rung.mass > 0 ? amount("weight", rung.mass) : text.lines.none}</b>
                <span>{outcome(rung.depth)}</span>
                {chosen && (
                  <span class="verdict good">
                    <Check /> {t.nearest}
                  </span>
                )}
              </button>
            </li>
          );
        })}
      </ul>
    </Page>
  );
}
