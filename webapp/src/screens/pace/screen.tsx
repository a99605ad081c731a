/** The Pace place: how fast the lures swim, what to do about it, and the ways to know it better. */
import type { ComponentType } from "preact";
import { useEffect } from "preact/hooks";
import { useAnswer } from "../../base/desk/ask";
import type { Verdict } from "../../base/desk/types/current.gen";
import { Down, Hold, Pace as PaceIcon, Question, Up } from "../../base/parts/icons";
import { Live, oldWords } from "../../base/parts/live/live";
import { Place } from "../../base/parts/place";
import { useSeconds } from "../../base/parts/seconds";
import { since } from "../../base/position/moment";
import { receiver, watchPosition } from "../../base/position/position";
import { calm } from "../../base/shell/calm";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { about, age, banded } from "../../base/units/show";
import { toSi } from "../../base/units/units";
import { course } from "../../base/units/when";
import { type Name, valueHeard } from "../../state/instruments/heard";
import { ageOf, currentNow, knownCurrent } from "../../state/pace/current/found";
import { predictedNow } from "../../state/pace/current/predicted";
import { awaited, holds, type Motion, motion } from "../../state/pace/motion";
import { notched, notches, watching } from "../../state/pace/notches";
import { type Pace, pace, wanted } from "../../state/pace/pace";
import { paceSettings, set } from "../../state/pace/settings";
import { currentByWheel } from "../../state/pace/wheel";
import { Gauge } from "./gauge";
import { Swing } from "./swing";

const t = text.pace;
const tide = text.tide;

const motionShown = calm(motion);
const paceShown = calm(pace);

export function PaceScreen() {
  useSeconds();
  useEffect(watchPosition, []);
  const now = motionShown.value;
  const known = now !== undefined && holds(now);
  const worked = paceShown.value;
  return (
    <Place
      title={text.places.pace}
      kind="pace"
      deckName={t.deck}
      deck={known && worked && <Throttle of={worked} />}
      quick={<TapBeat />}
    >
      {known && worked ? <Order of={worked} /> : <NoSpeed last={now} />}
      {known && worked && <Known of={worked} />}
      <WantedNow />
      <Ways />
    </Place>
  );
}

/** What is seldom asked while trolling. */
const Ways = () => (
  <div class="quick pace-ways">
    <a class="button" href={href("pace", "find")}>
      {t.find}
    </a>
    <a class="button" href={href("pace", "steer")}>
      {t.steer}
    </a>
    <a class="button" href={href("pace", "how")}>
      {t.how}
    </a>
    <a class="button" href={href("pace", "water")}>
      {text.tide.open}
    </a>
  </div>
);

const TapBeat = () => (
  <a class="button tap-beat" href={href("pace", "beat")}>
    <PaceIcon />
    <span>{t.tapBeat}</span>
  </a>
);

/** What goes with the throttle in hand. */
const Throttle = ({ of }: { of: Pace }) =>
  of.motion.swing ? (
    <div class="pace-row">
      <Notch />
      {of.currentKnown && <Follow />}
    </div>
  ) : null;

const marks: { [V in Verdict]: ComponentType } = {
  "hold it": Hold,
  "perhaps hold it": Question,
  "a little faster": Up,
  "a little slower": Down,
  "perhaps a little faster": Up,
  "perhaps a little slower": Down,
};

/** What to do with the throttle. */
function Order({ of }: { of: Pace }) {
  const Mark = marks[of.verdict];
  const change = about("speed", Math.abs(of.change), 0.1);
  const to = about("speed", of.motion.speed + of.change, 0.1);
  return (
    <section class={of.verdict === "hold it" ? "pace-order good" : "pace-order off"}>
      <p class="pace-verdict" role="status">
        <Mark /> {t.verdicts[of.verdict]}
      </p>
      <p>
        {of.verdict === "hold it" || of.verdict === "perhaps hold it"
          ? t.steady(about("speed", of.groundLow, 0.1), about("speed", of.groundHigh, 0.1))
          : of.change > 0
            ? t.more(change, to)
            : t.less(change, to)}
        {of.notches !== 0 && <b> · {t.notches(of.notches)}</b>}
      </p>
    </section>
  );
}

function Known({ of }: { of: Pace }) {
  const { speed, course: cog, accuracy, at } = of.motion;
  const band = wanted.value;
  return (
    <>
      {band && <Gauge water={of.water} wanted={band} />}
      <section class="pace-two">
        <h2>{t.throughWater}</h2>
        <p class="readout">{banded("speed", of.water)}</p>
        {of.byWheel ? <ByWheel /> : <CurrentNow />}
        <HeardNow />
      </section>
      <section class="pace-two">
        <h2>{t.overGround}</h2>
        <p class="readout">
          {about("speed", speed, 0.1)}{" "}
          <span class="pace-course">{cog === undefined ? "–" : course(cog)}</span>
        </p>
        <p class="soft">
          {of.motion.heard
            ? text.instruments.ago(oldWords(since(at) / 1000))
            : accuracy === undefined
              ? t.typedAgo(age(since(at)))
              : `${of.motion.reckoned ? t.reckoned : t.mean(String(paceSettings.value.window))}, ${t.fix(age(since(at)), about("depth", accuracy, 1))}`}
        </p>
      </section>
      <Swing of={of} />
    </>
  );
}

/** The current by the wheel, and what the tables say that it was weighed with. */
function ByWheel() {
  const [current, tables] = [currentByWheel(), predictedNow()];
  return (
    <p>
      {current && `${t.current(about("speed", current.drift, 0.1), course(current.set))}, `}
      <span class="soft">
        {text.instruments.by} <Live age={() => valueHeard("waterSpeed")?.age} />
        {tables && `, ${t.weighed(about("speed", tables.drift, 0.1), course(tables.set))}`}
      </span>
    </p>
  );
}

/** The age, s, of the older of what is heard of two. */
const olderOf =
  (...names: [Name, Name]) =>
  () =>
    Math.max(...names.map((name) => valueHeard(name)?.age ?? 0));

/** Heading and temperature as the boat's instruments tell them. */
function HeardNow() {
  const [heading, warmth] = [valueHeard("heading"), valueHeard("waterTemperature")];
  if (!heading && !warmth) return null;
  return (
    <p>
      <a class="button" href={href("lines", "instruments")}>
        {heading && text.instruments.steer(course(heading.value))}
        {heading && warmth && " · "}
        {warmth && text.instruments.warmth(about("temperature", warmth.value, 1))}{" "}
        <Live age={olderOf("heading", "waterTemperature")} />
      </a>
    </p>
  );
}

/** The current that is reckoned with: found, predicted or both, how sure, and for how long what was found still counts. */
function CurrentNow() {
  const current = currentNow();
  const tables = predictedNow();
  // To the minute: the answer does not change by the second.
  const found = current && { ...current, age: Math.floor((current.age ?? 0) / 60) * 60 };
  const { answer } = useAnswer("known", {
    ...(found && { current: found }),
    ...(tables && { predicted: tables }),
  });
  if (!answer || answer.from === "neither") {
    return (
      <p>
        <Question /> {t.currentUnknown}
      </p>
    );
  }
  const known = knownCurrent.value;
  const since = known ? age(ageOf(known) * 1000) : "";
  const { set: towards, drift } = answer.current;
  // Not told finer than it is written: ± 0.0 kn would be exact.
  const within = about("speed", Math.max(answer.within, toSi(0.1, "kn")), 0.1);
  return (
    <p>
      {t.current(about("speed", drift, 0.1), course(towards))},{" "}
      <span class="soft">
        {tide.known[answer.from](since)}, {tide.sure(`±\u202f${within}`)}
        {answer.fresh > 0 && `, ${tide.stale(age(answer.fresh * 1000))}`}
        {known && !tables && ` · ${t.currentAge(since, known.quality === "rough")}`}
      </span>
    </p>
  );
}

/** Teaches what a notch of the throttle does. */
function Notch() {
  if (watching.value) return <p role="status">{t.watchingNotch}</p>;
  return (
    <button type="button" class="button" onClick={once(notched)}>
      {t.notched}
      {notches.value.length > 0 && <span class="soft">({notches.value.length})</span>}
    </button>
  );
}

const Follow = () => (
  <button
    type="button"
    class="button"
    aria-pressed={paceSettings.value.follow}
    onClick={once(() => set({ follow: !paceSettings.value.follow }))}
  >
    {paceSettings.value.follow ? t.following : t.useOnLines}
  </button>
);

/** There is no speed of now: why, what it was last, and what to do. */
function NoSpeed({ last }: { last: Motion | undefined }) {
  const waits = awaited();
  const poor = typeof waits === "object";
  const why = waits
    ? poor
      ? t.poor(about("depth", waits.poor, 1))
      : t.reckoning
    : receiver.value === "on" && last
      ? undefined
      : t.receivers[receiver.value];
  const told = last && (waits ? t.before : t.gone)(about("speed", last.speed, 0.1), age(since(last.at)));
  return (
    <section class="pace-none">
      <p class="pace-verdict">{t.noSpeed}</p>
      {told && <p class="large-words">{told}</p>}
      {why && <p>{why}</p>}
      <a class="button primary" href={href("pace", "type")}>
        {t.type}
      </a>
    </section>
  );
}

function WantedNow() {
  const band = wanted.value;
  if (!band) return null;
  return (
    <a class="button pace-wanted" href={href("pace", "wanted")}>
      {t.wantedNow(about("speed", band.low, 0.1), about("speed", band.high, 0.1), band.from)}
    </a>
  );
}
