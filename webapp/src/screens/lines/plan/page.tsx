/** The plan of the spread: a drail and the line out for each rod, why, and in which order. */

import { useAnswer } from "../../../base/desk/ask";
import type { Answer, Setting } from "../../../base/desk/types/plan.gen";
import { limits } from "../../../base/desk/types/plan.gen";
import { On } from "../../../base/parts/icons";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { inWords, sayProblem } from "../../../base/parts/input/problem";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { units } from "../../../base/units/settings";
import { about, amount, banded, coarse, numeral } from "../../../base/units/show";
import { gear, pick } from "../../../state/gear/gear";
import { placeName } from "../../../state/gear/names";
import { running } from "../../../state/log/log";
import { useTrip } from "../../../state/log/refer";
import { hands, setHands, tended } from "../../../state/plan/hands";
import { planned, queryFor, stockOf } from "../../../state/plan/plan";
import { doubtNow } from "../../../state/spread/doubt";
import { sinkerOn } from "../../../state/spread/request";
import { answerFor, changeUndoably, solved } from "../../../state/spread/solved";
import { type Rod, type Spread, spread } from "../../../state/spread/spread";
import { rodName } from "../calibrate/words";
import { Charted } from "../rise/charted";
import { oddsWords } from "../verdict";
import { clearWords, weightWords } from "../words";
import { first, lessWords, speedWords } from "./words";

const t = text.plan;

/** Asks for the plan of the spread as it is set. */
export const usePlan = () =>
  useAnswer("plan", queryFor(gear.value, spread.value, doubtNow.value, hands.value.people));

export function PlanPage() {
  useTrip(running.value?.trip);
  const now = spread.value;
  const { answer, problem } = usePlan();
  const { people, from } = hands.value;
  return (
    <Page title={t.title} back={href("lines")} deck={answer && <Do answer={answer} now={now} />}>
      <p>
        {t.what(
          speedWords(now.speed, answer?.speed),
          amount("depth", now.bottom),
          amount("depth", now.wanted.low),
          amount("depth", now.wanted.high),
        )}{" "}
        {answer && first(now.speed, answer.speed)}
      </p>
      <LimitedStepper
        label={t.people}
        quantity="count"
        si={people}
        limits={limits.Query.people}
        onChange={setHands}
        note={t.peopleFrom[from]}
      />
      <div class="asks">
        <Charted />
        <a class="button" href={href("lines", "drails")}>
          <span>
            {t.drails}
            <small class="soft">{stockWords()}</small>
          </span>
          <On />
        </a>
      </div>
      {problem && <p role="alert">{sayProblem(problem, "depth")}</p>}
      {answer ? <Proposal answer={answer} now={now} /> : !problem && <p>{text.lines.working}</p>}
    </Page>
  );
}

const stockWords = (): string =>
  stockOf(gear.value)
    .map(({ mass, number }) => t.times(String(number), amount("weight", mass)))
    .join(", ") || t.noDrails;

function Proposal({ answer, now }: { answer: Answer; now: Spread }) {
  const { settings, closest, missing } = answer;
  return (
    <>
      <ol class="plan">
        {now.rods.map((rod, i) => {
          const setting = settings[i];
          return (
            setting && (
              <OneRod key={rod.id} rod={rod} number={i} setting={setting} where={whereWords(answer, i)} />
            )
          );
        })}
      </ol>
      {missing.length > 0 && (
        <p class="notice">
          {t.missing(missing.map(({ mass, number }) => t.times(String(number), amount("weight", mass))))}
        </p>
      )}
      <h2>{t.order}</h2>
      {answer.order !== "" && <p>{t.unordered[answer.order]}</p>}
      <p>{t.out(answer.out.map(rodName))}</p>
      <p>{t.in(answer.in.map(rodName))}</p>
      <p class="soft">{t.practice}</p>
      {closest && (
        <p>
          {t.closest(
            rodName(closest.a),
            rodName(closest.b),
            about("depth", closest.distance, 1),
            about("line", closest.astern, coarse[units().line]),
          )}
        </p>
      )}
      <InTheTurn answer={answer} />
      {alike(now) && <p class="soft">{t.alike}</p>}
    </>
  );
}

/** What the usual turn does to the plan, and what was done about it. */
function InTheTurn({ answer: { turn } }: { answer: Answer }) {
  if (!turn) return null;
  const quarter = text.ages.seconds(numeral(usualQuarter));
  const side = text.turn.sides[turn.toward];
  const why = t.breaks[turn.bound](rodName(turn.rod), rodName(turn.other));
  return (
    <>
      <p>
        {turn.holds ? t.turnHolds(quarter) : t.turnBreaks(quarter, side, why)} {turn.raised && t.raised}{" "}
        {turn.spaced && t.spaced}
      </p>
      <a class="button" href={href("lines", "turn")}>
        {t.howTurns} <On />
      </a>
    </>
  );
}

/** s; what the desk takes by itself. */
const usualQuarter = limits.Query.quarter.default;

/** Takes the plan over, or reads it out. */
function Do({ answer, now }: { answer: Answer; now: Spread }) {
  const { settings, out } = answer;
  const use = () => {
    const rods = planned(settings, now);
    const gone = now.rods.flatMap((rod, i) => (rods.some(({ id }) => id === rod.id) ? [] : [rodName(i)]));
    const said = gone.length > 0 ? t.usedWithout(gone) : t.used;
    changeUndoably([said, first(now.speed, answer.speed)].filter(Boolean).join(" "), { rods });
    goInstead("lines");
  };
  return (
    <div class="side-by-side">
      <button type="button" class="button primary" onClick={once(use)}>
        {t.use}
      </button>
      {out.length > 0 && (
        <a class="button" href={href("lines", "plan", "0")}>
          {t.aloud} <On />
        </a>
      )}
    </div>
  );
}

/** Whether two rods stand at the same distance to the same side: then the order is a guess. */
function alike({ rods }: Spread): boolean {
  const abeam = rods.map((rod) => pick(gear.value.places, rod.place).abeam);
  return new Set(abeam).size < abeam.length;
}

/** Where a lure rides among the others. */
function whereWords({ out, settings }: Answer, index: number): string | undefined {
  const at = out.indexOf(index);
  const behind = out[at - 1];
  if (at === 0) return t.reasons.farthest;
  const [one, other] = [settings[index], behind === undefined ? undefined : settings[behind]];
  return one && other && behind !== undefined
    ? t.reasons.ahead(about("line", other.astern - one.astern, coarse[units().line]), behind + 1)
    : undefined;
}

interface OneProps {
  rod: Rod;
  number: number;
  setting: Setting;
  where: string | undefined;
}

function OneRod({ rod, number, setting, where }: OneProps) {
  const set = !setting.aboard && !setting.trouble;
  return (
    <li>
      <p class="plan-head">
        <span class="rod-number">{number + 1}</span>
        <span class="rod-place">{placeName(pick(gear.value.places, rod.place))}</span>
      </p>
      {set && <p class="large-words">{settingWords(rod, setting)}</p>}
      {set && (
        <p>
          {t.rides(
            banded("depth", setting.depth),
            clearWords(setting),
            about("line", setting.astern, coarse[units().line]),
          )}{" "}
          {oddsWords(setting)} {lessWords(setting, answerFor(solved.value, rod))}
        </p>
      )}
      <p>{reasonWords(rod, setting, where)}</p>
    </li>
  );
}

const settingWords = (rod: Rod, { lineOut, drail }: Setting): string =>
  text.lines.setting(amount("line", lineOut), weightWords({ ...rod, drail }));

/** Smaller moves are not worth a word. */
const told = 0.1;

/** Why it is proposed so: its depth, and its length where that is unusual. */
function reasonWords(rod: Rod, setting: Setting, where?: string): string {
  const { trouble, aboard, length, backing } = setting;
  const r = t.reasons;
  if (trouble) return r.alone(inWords(trouble));
  if (aboard) return r.stays(String(tended));
  return [
    depthWords(rod, setting, where),
    length !== "" && `${r.lengths[length]}.`,
    backing > 0 && r.backing(about("line", backing, coarse[units().line])),
  ]
    .filter(Boolean)
    .join(" ");
}

function depthWords(rod: Rod, { why, speed, sinker, beside, moved }: Setting, where?: string): string {
  const r = t.reasons;
  const own = sinkerOn(gear.value, rod);
  if (own !== undefined && sinker > own) return r.sinker(amount("weight", own), amount("weight", sinker));
  if (why !== "")
    return `${text.lines.why[why]}${speed > 0 ? ` ${r.speed(about("speed", speed, 0.1))}` : ""}`;
  if (beside) return r.beside;
  const by = about("depth", Math.abs(moved), 0.5);
  const aim = moved > told ? r.deeper(by) : moved < -told ? r.higher(by) : r.middle;
  return `${[aim, where].filter(Boolean).join(", ")}.`;
}
