/** What touches tell: the bands before and after, which touch contradicts the others, and which to try next. */
import { useMemo } from "preact/hooks";
import { useAnswer } from "../../../base/desk/ask";
import type { Answer, Judged } from "../../../base/desk/types/calibrate.gen";
import { Check, Cross, On, Question } from "../../../base/parts/icons";
import { Choices } from "../../../base/parts/input/choices";
import { sayOther } from "../../../base/parts/input/problem";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { amount, bare } from "../../../base/units/show";
import type { Touch } from "../../../state/calibrate/observe";
import {
  contradictions,
  guesses,
  judged,
  learnedFrom,
  leaveOutPhone,
  observed,
  otherPhones,
  queryFor,
  takeGuess,
  touches,
} from "../../../state/calibrate/touches";
import { mayChange } from "../../../state/crew/role";
import { gear, pick } from "../../../state/gear/gear";
import { projected } from "../../../state/log/beside/projecting";
import { recordHref } from "../../../state/log/refer";
import { strikeOut, strikeOutName } from "../../../state/log/saying/strike-out";
import { isCrews } from "../../../state/log/whose";
import { kindName, writerWords } from "../../../state/notes/words";
import { doubtNow } from "../../../state/spread/doubt";
import { lessons } from "../../../state/spread/learned";
import { type Spread, spread } from "../../../state/spread/spread";
import { Bands } from "./bands";
import { afterWords, howManyCount, rodName, touchWords, tryWords, usedWords, verdictWords } from "./words";

const t = text.calibrate;
/** Older ones are in Notes. */
const listed = 40;

export function TouchesPage() {
  const { used } = lessons.value;
  const all = touches.value ?? [];
  const isGathering = !touches.value && projected.value === false;
  return (
    <Page title={t.title} back={href("lines")}>
      {isGathering && <p role="status">{t.gathering}</p>}
      {(used > 0 || !isGathering) && <p class="large-words">{used > 0 ? usedWords(used) : t.none}</p>}
      {used > 0 && learnedFrom.value.length > 0 && (
        <p>{t.from([...new Set(learnedFrom.value.map(writerWords))])}</p>
      )}
      {guesses.value.slice(0, listed).map((touch) => (
        <Guess key={touch.record.id} touch={touch} />
      ))}
      {contradictions.value.map(({ touch, verdict }) => (
        <Odd key={touch.record.id} touch={touch} verdict={verdict} />
      ))}
      {spread.value.rods.length > 0 && !isGathering && <Learned now={spread.value} used={used} />}
      {used > 0 && <OnOrOff />}
      {all.length > 0 && (
        <>
          <h2>{t.all}</h2>
          <ul class="links">
            {all.slice(0, listed).map((touch) => (
              <Row key={touch.record.id} touch={touch} />
            ))}
          </ul>
          <Phones />
        </>
      )}
      <nav class="asks" aria-label={text.teach.more}>
        <a class="button" href={href("lines", "teach")}>
          {text.teach.ask} <On />
        </a>
        <a class="button" href={href("lines", "right")}>
          {text.teach.right.title} <On />
        </a>
      </nav>
      <p class="soft">{t.how}</p>
    </Page>
  );
}

/** The other phones, each to be left out here: a clock, a rod or a word of it may be wrong again and again. */
function Phones() {
  return otherPhones.value.map(({ by, first, out }) => (
    <button
      key={by}
      type="button"
      class="button"
      aria-pressed={out}
      onClick={once(() => leaveOutPhone(by, !out))}
    >
      {out ? t.countPhone(writerWords(first)) : t.leavePhone(writerWords(first))}
    </button>
  ));
}

/** Noted by a guest, or at a depth that nobody had set: it moves nothing here until somebody of the crew takes it. */
function Guess({ touch }: { touch: Touch }) {
  const [first] = touch.record.entries;
  return (
    <div class="notice">
      <p>
        <Question /> {kindName(touch.record.kind)}: {touchWords(touch)}.{" "}
        {first && (isCrews(first) ? t.guess : t.guests)(writerWords(first))}
      </p>
      <div class="notice-actions">
        {mayChange() && (
          <button type="button" class="button" onClick={once(() => takeGuess(touch))}>
            {t.takeGuess}
          </button>
        )}
        <a class="button" href={recordHref(touch.record)}>
          {t.look} <On />
        </a>
      </div>
    </div>
  );
}

/** One that contradicts: what it says, and the way to be rid of it. */
export function Odd({ touch, verdict }: { touch: Touch; verdict: Judged }) {
  return (
    <div class="notice several">
      <p>
        <Question /> <b>{t.contradicts}</b> {kindName(touch.record.kind)}: {touchWords(touch)}.{" "}
        {verdictWords(touch, verdict, howManyCount())}
      </p>
      <p>{t.contradictsWhy}</p>
      <div class="notice-actions">
        <button type="button" class="button" onClick={once(() => strikeOut(touch.record))}>
          {strikeOutName(touch.record)} <Cross />
        </button>
        <a class="button" href={recordHref(touch.record)}>
          {t.look} <On />
        </a>
      </div>
    </div>
  );
}

function Learned({ now, used }: { now: Spread; used: number }) {
  const at = useMemo(() => Date.now(), [observed.value]);
  const { answer, problem } = useAnswer(
    "calibrate",
    queryFor(observed.value, at, gear.value, now, doubtNow.value),
  );
  if (problem) return <p role="alert">{sayOther(problem)}</p>;
  if (!answer) return <p>{text.lines.working}</p>;
  return (
    <>
      {answer.used > 1 && (
        <p>
          {text.teach.effective(String(answer.used), bare(answer.effective, 1))}{" "}
          {text.teach.shared[answer.shared]}
        </p>
      )}
      <Next answer={answer} now={now} />
      {used > 0 &&
        answer.rods.map(
          ({ before, after, lineDrag, trouble }, i) =>
            !trouble && (
              <section class="form" key={now.rods[i]?.id}>
                <h2>{rodName(i)}</h2>
                <Bands
                  rows={[
                    { name: t.before, band: before },
                    { name: afterWords(used), band: after },
                  ]}
                  bottom={now.bottom}
                  legend={i === 0}
                />
                <p class="soft">{t.lineDrag(bare(lineDrag.mid), bare(lineDrag.low), bare(lineDrag.high))}</p>
              </section>
            ),
        )}
    </>
  );
}

/** The touches that would tell most, as far as the wire reaches: nobody lets backing out for that. */
function Next({ answer, now }: { answer: Answer; now: Spread }) {
  const { rigs } = gear.value;
  const handy = answer.next.filter(({ rod, lineOut }) => {
    const of = now.rods[rod];
    return of && lineOut <= pick(rigs, of.rig).wireLength;
  });
  if (handy.length === 0) return null;
  return (
    <section class="form">
      <h2>{t.next}</h2>
      <ul class="prose">
        {handy.map((one) => (
          <li key={`${one.rod} ${one.kind}`}>{tryWords(one, answer.width)}</li>
        ))}
      </ul>
      <p class="soft">{t.nextHow(amount("depth", now.bottom))}</p>
    </section>
  );
}

const OnOrOff = () => (
  <Choices
    label={t.depths}
    choices={[
      { value: "on", name: t.withTouches },
      { value: "off", name: t.withoutTouches },
    ]}
    value={lessons.value.on ? "on" : "off"}
    onChoose={(chosen) => lessons.set({ ...lessons.value, on: chosen === "on" })}
  />
);

function Row({ touch }: { touch: Touch }) {
  const verdict = judged.value.find((one) => one.touch.record.id === touch.record.id)?.verdict;
  const [first] = touch.record.entries;
  const Mark = verdict?.verdict === "agrees" ? Check : Question;
  return (
    <li>
      <a class="button" href={recordHref(touch.record)}>
        <span>
          {kindName(touch.record.kind)}: {touchWords(touch)}
          <small class="soft">
            <Mark /> {verdictWords(touch, verdict, howManyCount())}
            {first && !first.own && ` · ${writerWords(first)}`}
          </small>
        </span>
        <On />
      </a>
    </li>
  );
}
