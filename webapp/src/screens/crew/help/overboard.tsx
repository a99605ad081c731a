/** Somebody is overboard: the way back, what to do in order, and the words for the radio with the place to look. */
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { useAnswer } from "../../../base/desk/ask";
import type { Query } from "../../../base/desk/types/overboard.gen";
import { On, Warning } from "../../../base/parts/icons";
import { useSeconds } from "../../../base/parts/seconds";
import { once, screenChanged } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import { apart } from "../../../base/text/apart";
import { text } from "../../../base/text/text";
import { age } from "../../../base/units/show";
import { clock } from "../../../base/units/when";
import { mayChange } from "../../../state/crew/role";
import { useRunningTrip } from "../../../state/crew/use-trip";
import { type Folded, number } from "../../../state/entry/fold";
import { refer } from "../../../state/log/refer";
import { writerWords } from "../../../state/notes/words";
import { doubtOf } from "../../../state/overboard/doubt";
import {
  callOf,
  calls,
  cases,
  endAll,
  endedBy,
  foremost,
  isTimeTold,
  mayEnd,
  type Outcome,
  open,
  outcomes,
  saidOver,
  sinceWent,
  wentAt,
} from "../../../state/overboard/overboard";
import { wayBack } from "../../../state/overboard/way-back";
import { HelpFrame } from "./frame";
import { Doubted, markWords, Radio } from "./radio";
import { Steps } from "./steps";
import { NoWay, WayBack } from "./way-back";

const t = text.help.overboard;

export function OverboardPage({ id }: { id: string }) {
  useRunningTrip();
  // Whoever comes back finds it asked anew: one touch must not end it.
  useEffect(
    () => () => {
      asking.value = undefined;
      ending.value = undefined;
    },
    [id],
  );
  const record = id ? cases.value.find((one) => refer(one) === id) : foremost.value;
  const lasts = record !== undefined && number(record, "ended") === undefined;
  const radio = useRef<HTMLHeadingElement>(null);
  return (
    <HelpFrame
      title={t.title}
      back={href("crew")}
      above={record && <Since record={record} />}
      words={t.steps.map(({ what }) => what)}
      radio={lasts && radio}
      foot={lasts && <OverButton record={record} />}
      deck={lasts && asking.value && <Outcomes record={record} all={asking.value} />}
    >
      {!record && <p>{t.none}</p>}
      {record && (lasts ? <Looking record={record} /> : <p class="notice">{t.after}</p>)}
      {record && lasts && <SaidOver record={record} />}
      {record && lasts && <OfOnePhone record={record} />}
      <Others but={record} />
      <h2>{t.toDo}</h2>
      <Steps of={t.steps} />
      <a class="button" href={href("help", "alone")}>
        {t.skipper} <On />
      </a>
      {record && lasts ? (
        <Radio key={record.id} lost={record} heading={radio} />
      ) : (
        <a class="button" href={href("crew", "radio")}>
          {text.help.radio} <On />
        </a>
      )}
    </HelpFrame>
  );
}

/** How long, since when, and who says so. */
function Since({ record }: { record: Folded }) {
  useSeconds();
  const first = record.entries[0];
  const outcome = record.fields.get("outcome")?.value;
  const by = endedBy(record);
  const lasts = by === undefined;
  return (
    <p class={lasts ? "overboard-since alarm" : "overboard-since"} role="timer">
      <b class="readout">{lasts ? t.since(age(sinceWent(record))) : t.outcomes[String(outcome)]}</b>{" "}
      {t.at(isTimeTold(record) ? clock(wentAt(record)) : "", first ? writerWords(first) : "")}
      {by && `, ${t.endedBy(writerWords(by))}`}
    </p>
  );
}

function Looking({ record }: { record: Folded }) {
  useSeconds();
  const asked = wayBack(record);
  return (
    <>
      <Doubted record={record} />
      {asked ? <Asked asked={asked} /> : <NoWay record={record} />}
    </>
  );
}

function Asked({ asked }: { asked: Query }) {
  const { answer } = useAnswer("overboard", asked);
  return (
    <>
      <WayBack asked={asked} answer={answer} />
      <p class="soft">{t.noDrift}</p>
    </>
  );
}

/** What a guest says of another's case: it ends nothing. */
function SaidOver({ record }: { record: Folded }) {
  return saidOver(record).map(({ outcome, from }) => (
    <p key={from.id} class="notice">
      {t.saidOver(writerWords(from), t.outcomes[outcome] ?? apart(outcome))}
    </p>
  ));
}

/** So many of what one phone pressed are a tap away; the rest is counted. */
const mostOfPhone = 5;

/** What else a guest's phone pressed: each with its place, and the crew ends all of it together. */
function OfOnePhone({ record }: { record: Folded }) {
  useSeconds();
  const all = callOf(record);
  const others = all.filter(({ id }) => id !== record.id);
  if (others.length === 0) return null;
  return (
    <section class="form">
      <p class="notice">{t.pressed(all.length)}</p>
      <Cases of={others.slice(0, mostOfPhone)} />
      {others.length > mostOfPhone && <p class="soft">{t.earlier(others.length - mostOfPhone)}</p>}
      {mayChange() && <EndAll all={all} />}
      {mayChange() && ending.value && <Sure these={ending.value} />}
    </section>
  );
}

/** All of one phone that are to be ended, once it is asked whether they are: once more, as for one. */
const ending = signal<Folded[] | undefined>(undefined);

const EndAll = ({ all }: { all: Folded[] }) => (
  <button
    type="button"
    class="button"
    aria-expanded={ending.value !== undefined}
    onClick={once(() => {
      ending.value = ending.value ? undefined : all;
    })}
  >
    {t.endAll((ending.value ?? all).length)}
  </button>
);

/** Ends what was counted where it was tapped first, of that what lasts still, and nothing that was pressed since. */
function Sure({ these }: { these: Folded[] }) {
  const button = useRef<HTMLButtonElement>(null);
  // It is seen wherever the page ends, and comes under no finger that taps twice.
  useEffect(() => {
    button.current?.scrollIntoView({ block: "nearest" });
    screenChanged();
  }, []);
  const sure = () => {
    const lasting = open.value.filter(({ id }) => these.some((one) => one.id === id));
    ending.value = undefined;
    offerUndo(t.ended(t.outcomes.mistake ?? ""), endAll(lasting, "mistake"));
  };
  return (
    <button ref={button} type="button" class="button" onClick={once(sure)}>
      {t.endAllSure(these.length)}
    </button>
  );
}

/** Further cases that are not over. */
function Others({ but }: { but: Folded | undefined }) {
  useSeconds();
  const others = calls.value.filter((call) => call.every(({ id }) => id !== but?.id));
  if (others.length === 0) return null;
  return (
    <section class="form">
      <p class="notice alarm">
        <Warning /> {t.others(others.length)}
      </p>
      <Cases of={others.flatMap(([first]) => first ?? [])} />
    </section>
  );
}

const Cases = ({ of }: { of: Folded[] }) => (
  <ul class="links">
    {of.map((record) => (
      <li key={record.id}>
        <a class="button" href={href("overboard", refer(record))}>
          <span>
            {t.since(age(sinceWent(record)))}
            <small class="soft">
              {record.entries[0] && writerWords(record.entries[0])}, {markWords(record) ?? t.noPlace}
              {doubtOf(record) !== undefined && `, ${t.doubtful}`}
            </small>
          </span>{" "}
          <On />
        </a>
      </li>
    ))}
  </ul>
);

/** All that is told as one, as it was when it was asked how it ended: once more, so that no wet finger ends it. */
const asking = signal<Folded[] | undefined>(undefined);

const OverButton = ({ record }: { record: Folded }) => (
  <button
    type="button"
    class="button"
    aria-expanded={asking.value !== undefined}
    onClick={once(() => {
      asking.value = asking.value ? undefined : callOf(record);
    })}
  >
    {t.over}
  </button>
);

/** Ends nothing that was pressed since. */
function Outcomes({ record, all }: { record: Folded; all: Folded[] }) {
  // Until it is over it goes on: the way back stays in sight above what is asked.
  useEffect(() => scrollTo(0, 0), []);
  const over = (outcome: Outcome) => {
    asking.value = undefined;
    const said = t.outcomes[outcome] ?? outcome;
    const lasting = open.value.filter(({ id }) => all.some((one) => one.id === id));
    offerUndo(mayEnd(record) ? t.ended(said) : t.proposed(said), endAll(lasting, outcome));
  };
  return (
    <>
      {outcomes.map((outcome) => (
        <button key={outcome} type="button" class="button" onClick={once(() => over(outcome))}>
          {t.outcomes[outcome]}
        </button>
      ))}
    </>
  );
}
