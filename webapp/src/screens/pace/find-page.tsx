/** Finding the current, guided: by a turn, or by straight legs. */
import { useEffect } from "preact/hooks";
import { useAnswer } from "../../base/desk/ask";
import type { Answer } from "../../base/desk/types/current.gen";
import { Page } from "../../base/parts/page";
import { useSeconds } from "../../base/parts/seconds";
import { receiver, watchPosition } from "../../base/position/position";
import { calm } from "../../base/shell/calm";
import { once } from "../../base/shell/guard";
import { goInstead, href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { about, banded, lineAmount } from "../../base/units/show";
import { course, lasting } from "../../base/units/when";
import { keepCurrent, knownCurrent } from "../../state/pace/current/found";
import { begin, dropLeg, type Run, run, stop, takeLeg, told } from "../../state/pace/find";
import { holds, motion } from "../../state/pace/motion";
import { spread } from "../../state/spread/spread";
import { tightestFor } from "../../state/turn/request";
import { Plot } from "./plot";

const t = text.pace.finding;
const shown = calm(told);

export function FindPage() {
  useSeconds();
  useEffect(watchPosition, []);
  const now = run.value;
  const answer = now && shown.value?.run.from === now.from ? shown.value.answer : undefined;
  return (
    <Page title={t.title} back={href("pace")} deck={now && <Ends answer={answer} />}>
      {now ? <Running of={now} answer={answer} /> : <Choice />}
    </Page>
  );
}

function Choice() {
  const turns = receiver.value !== "refused" && receiver.value !== "none";
  return (
    <>
      <p>{t.what}</p>
      <p class="notice">
        {t.careful} <HowTight />
      </p>
      {turns ? (
        <section class="form">
          <button type="button" class="button primary" onClick={once(() => begin("turn"))}>
            {t.turn}
          </button>
          <p>{t.turnHow}</p>
        </section>
      ) : (
        <p>{text.pace.receivers[receiver.value]}</p>
      )}
      <section class="form">
        <button type="button" class="button primary" onClick={once(() => begin("legs"))}>
          {t.legs}
        </button>
        <p>{t.legsHow}</p>
      </section>
      {knownCurrent.value && (
        <button type="button" class="button" onClick={once(forget)}>
          {t.forget}
        </button>
      )}
    </>
  );
}

/** How tight a turn the lines allow, as they are set on Lines. */
function HowTight() {
  const now = spread.value;
  const port = useAnswer("tightest", tightestFor(now, "port")).answer;
  const starboard = useAnswer("tightest", tightestFor(now, "starboard")).answer;
  if (now.rods.length === 0 || !port || !starboard) return null;
  const bounded = [port, starboard].filter(({ bound }) => bound !== "none");
  const worse = port.whole > starboard.whole ? port : starboard;
  if (bounded.length === 0) return <>{t.anyTurn}</>;
  if (bounded.some(({ radius }) => radius === 0)) return <b>{t.noTurn}</b>;
  return <b>{t.notTighter(lasting(10 * Math.ceil(worse.whole / 10)), lineAmount(worse.radius))}</b>;
}

function forget(): void {
  const before = knownCurrent.value;
  knownCurrent.set(null);
  offerUndo(t.forgotten, () => knownCurrent.set(before));
}

function Running({ of, answer }: { of: Run; answer: Answer | undefined }) {
  const found = answer?.found;
  return (
    <>
      <section class="find-told" role="status">
        {of.kind === "turn" && <p>{t.turning(about("angle", answer?.arc ?? 0, 5), of.samples.length)}</p>}
        {answer && answer.why !== "" && of.samples.length > 0 && <p>{t.why[answer.why]}</p>}
        {found && (
          <>
            <p class="large-words">{currentWords(answer)}</p>
            <p>
              <b>{t.qualities[answer.quality]}</b>. {t.speed(banded("speed", found.speed))}
            </p>
          </>
        )}
        {answer?.change && <p>{t.change}</p>}
        {answer && answer.aside.length > 0 && <p class="soft">{t.aside(answer.aside.length)}</p>}
      </section>
      <Plot of={of} answer={answer} words={found ? currentWords(answer) : ""} />
      {of.kind === "legs" && <Legs of={of} />}
    </>
  );
}

/** At the thumb while the boat turns. */
const Ends = ({ answer }: { answer: Answer | undefined }) => (
  <div class="pace-row">
    {answer?.found && answer.quality !== "none" && (
      <button type="button" class="button primary" onClick={once(() => use(answer))}>
        {t.use}
      </button>
    )}
    <button type="button" class="button" onClick={once(stop)}>
      {t.stop}
    </button>
  </div>
);

function currentWords({ found }: Answer): string {
  if (!found) return "";
  const { set, drift } = found;
  const strength = banded("speed", drift);
  return set.high - set.low >= 2 * Math.PI - 1e-6 ? t.slack(strength) : t.found(strength, course(set.mid));
}

function use({ found, quality }: Answer): void {
  if (!found || quality === "none") return;
  const before = knownCurrent.value;
  keepCurrent(found, quality);
  stop();
  offerUndo(t.used, () => knownCurrent.set(before));
  goInstead("pace");
}

function Legs({ of }: { of: Run }) {
  const now = motion.value;
  const ready = now !== undefined && now.course !== undefined && holds(now);
  return (
    <section class="form">
      <ol class="legs">
        {of.samples.map(({ speed, course: cog }, i) => (
          <li key={i}>{t.leg(i + 1, about("speed", speed, 0.1), course(cog))}</li>
        ))}
      </ol>
      {ready ? (
        <button type="button" class="button primary" onClick={once(takeLeg)}>
          {t.takeLeg}: {about("speed", now.speed, 0.1)}, {course(now.course ?? 0)}
        </button>
      ) : (
        <p>{t.noMotion}</p>
      )}
      <div class="pace-row">
        <a class="button" href={href("pace", "type")}>
          {text.pace.type}
        </a>
        {of.samples.length > 0 && (
          <button type="button" class="button" onClick={once(dropLeg)}>
            {t.dropLeg}
          </button>
        )}
      </div>
    </section>
  );
}
