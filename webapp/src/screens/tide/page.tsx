/** The water ahead at a place: a day of tide, current and light, with its stations, to look at, to plan by and to print. */
import { signal, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { useAnswer } from "../../base/desk/ask";
import type { Answer } from "../../base/desk/types/day.gen";
import type { Kind, Mark, Prediction, Station } from "../../base/desk/types/tide.gen";
import { sayOther } from "../../base/parts/input/problem";
import { useSaving } from "../../base/parts/input/save-file";
import { Stepper } from "../../base/parts/input/stepper";
import { Page } from "../../base/parts/page";
import { useSeconds } from "../../base/parts/seconds";
import { watchPosition } from "../../base/position/position";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { numeral } from "../../base/units/show";
import { clock, day as dayName, place as placeName, turned } from "../../base/units/when";
import { gear } from "../../state/gear/gear";
import { giveAhead } from "../../state/out/ahead";
import { chartedDepth } from "../../state/pace/current/predicted";
import { motion } from "../../state/pace/motion";
import { doubt } from "../../state/spread/doubt";
import { spreadFor } from "../../state/spread/request";
import { changeUndoably } from "../../state/spread/solved";
import { spread } from "../../state/spread/spread";
import { properties } from "../../state/spread/water";
import {
  chartHere,
  ground,
  here,
  keepGround,
  placeOf,
  setChart,
  stationsChosen,
} from "../../state/tide/water";
import { Around, SignOf } from "./around";
import { Curve } from "./curve";
import { Hours } from "./hours";
import { OwnRecord } from "./own";
import { ReadDay } from "./read";
import { flowWords, height, speed, spreadWords, stationWords } from "./words";

const t = text.tide;

/** The day looked at, by its midnight, in s; undefined: today. It stays as long as the app is open. */
const chosen = signal<number | undefined>(undefined);

/** Midnight of the phone's own day, so many days on from that of a moment, in s. */
function midnight(of: number, on = 0): number {
  const at = new Date(of);
  at.setHours(0, 0, 0, 0);
  at.setDate(at.getDate() + on);
  return at.getTime() / 1000;
}

export function WaterAheadPage() {
  useEffect(watchPosition, []);
  const at = here();
  return (
    <Page title={t.title} back={href("pace")} kind="water-ahead">
      <p class="notice">{t.caution}</p>
      {at ? <Ahead at={at} /> : <p class="large-words">{t.noPlace}</p>}
    </Page>
  );
}

function Ahead({ at }: { at: { lat: number; lon: number } }) {
  // To a minute of arc: a boat that moves asks no new day of the desk.
  const near = { lat: Math.round(at.lat * 60) / 60, lon: Math.round(at.lon * 60) / 60 };
  const place = placeOf(near);
  useEffect(() => keepGround(near), [near.lat, near.lon]);
  const wanted = stationsChosen();
  const tides = useAnswer("stations", { place, kind: "tide", wanted: wanted.tide });
  const currents = useAnswer("stations", { place, kind: "current", wanted: wanted.stream });
  const problem = tides.problem ?? currents.problem;
  if (problem) return <p role="alert">{sayOther(problem)}</p>;
  if (!tides.answer || !currents.answer) return null;
  const { source, use: tide } = tides.answer;
  const stream = currents.answer.use;
  return (
    <>
      <p>{t.at(placeName(near.lat, near.lon))}</p>
      <DayOf place={near} tide={tide} stream={stream} />
      <OwnRecord {...near} />
      <section class="form">
        <h2>{t.stations}</h2>
        <Around of={[...tides.answer.stations, ...currents.answer.stations]} chosen={[tide, stream]} />
        <Choose title={t.tideStations} of={tides.answer.stations} kind="tide" now={tide} />
        <Choose title={t.currentStations} of={currents.answer.stations} kind="current" now={stream} />
        <p class="soft">{t.from(source.constants, String(source.from), String(source.until))}</p>
      </section>
    </>
  );
}

function Choose({ title, of, kind, now }: { title: string; of: Station[]; kind: Kind; now: string }) {
  // What was tapped shows at once; what goes by it follows when the desk has answered.
  const tapped = useSignal<string | undefined>(undefined);
  const shown = of.some(({ id }) => id === tapped.value) ? tapped.value : now;
  return (
    <fieldset>
      <legend>
        <SignOf kind={kind} /> {title}
      </legend>
      {of
        .filter(({ why }) => why === "")
        .map((one) => (
          <label key={one.id} class="tide-station">
            <input
              type="radio"
              name={kind}
              checked={one.id === shown}
              onChange={() => {
                tapped.value = one.id;
                keepGround(kind === "tide" ? { tide: one.id } : { stream: one.id });
              }}
            />
            {stationWords(one)}
          </label>
        ))}
    </fieldset>
  );
}

interface OfDay {
  place: { lat: number; lon: number };
  tide: string;
  stream: string;
}

function DayOf({ place, tide, stream }: OfDay) {
  const course = useSignal(motion.peek()?.course ?? 0);
  const track = ground.signal.value?.track ?? course.value;
  const chart = chartHere();
  const thisDay = midnight(Date.now());
  const from = chosen.value ?? thisDay;
  const until = midnight(from * 1000, 1);
  const today = from === thisDay;
  const now = spread.value;
  const { said, saving } = useSaving();
  const { answer, problem } = useAnswer("day", {
    place: placeOf(place),
    tide,
    stream,
    from,
    until,
    step: 1800,
    track,
    speed: now.speed,
    depth: chart,
    ...(chart > 0 && { spread: spreadFor(gear.value, now, properties.value, doubt.value) }),
  });
  const step = (by: number, name: string) => (
    <button
      type="button"
      class="button"
      onClick={once(() => {
        const day = midnight((chosen.peek() ?? midnight(Date.now())) * 1000, by);
        chosen.value = day === midnight(Date.now()) ? undefined : day;
      })}
    >
      {name}
    </button>
  );
  return (
    <>
      <div class="pace-row">
        {step(-1, t.earlier)}
        <b class="tide-day" role="status">
          {today ? t.today : dayName(from * 1000)}
        </b>
        {step(1, t.later)}
      </div>
      {problem && <p role="alert">{sayOther(problem)}</p>}
      {answer && <Told of={answer} place={place} today={today} />}
      <section class="form">
        <Stepper
          label={t.depth}
          quantity="depth"
          si={chart}
          onChange={(si) => setChart(Math.max(0, si))}
          zero="–"
        />
        {today && <DepthNow />}
        <Stepper
          label={t.track}
          quantity="angle"
          si={track}
          step={turned}
          onChange={(si) => keepGround({ track: turned(si) })}
        />
      </section>
      {answer && <Hours of={answer} />}
      <div class="pace-row">
        <button type="button" class="button" onClick={once(() => window.print())}>
          {t.print}
        </button>
        {answer && (
          <button
            type="button"
            class="button"
            onClick={saving(() => giveAhead(answer, place, dayName(from * 1000)))}
          >
            {t.toCalendar}
          </button>
        )}
        {answer && <ReadDay of={answer} day={today ? t.today : dayName(from * 1000)} />}
      </div>
      <p role="status">{said}</p>
    </>
  );
}

function Told({ of, place, today }: { of: Answer; place: OfDay["place"]; today: boolean }) {
  useSeconds();
  const now = Math.floor(Date.now() / 60_000) * 60;
  const heights = of.rows.flatMap(({ time, water }) => (water ? [{ time, value: water.height }] : []));
  const speeds = of.rows.flatMap(({ time, flow }) => (flow ? [{ time, value: flow.speed }] : []));
  return (
    <>
      <section>
        <h2>{t.heights}</h2>
        {of.tide ? (
          <>
            <p>{stationWords(of.tide.station)}</p>
            <Curve what={t.heights} points={heights} marks={of.tide.marks} say={height} now={now} />
            <Marks of={of.tide.marks} say={height} />
            <p class="soft">{spreadWords(of.tide, height(of.tide.spread.value))}</p>
          </>
        ) : (
          <p>{t.noTide}</p>
        )}
      </section>
      <section>
        <h2>{t.currents}</h2>
        {of.stream ? (
          <>
            <p>{stationWords(of.stream.station)}</p>
            {today && <FlowNow key={of.stream.station.id} of={of.stream} place={place} now={now} />}
            <Curve what={t.currents} points={speeds} marks={of.stream.marks} say={speed} now={now} />
            <Marks of={of.stream.marks} say={speed} />
            <p class="soft">{spreadWords(of.stream, speed(of.stream.spread.value))}</p>
          </>
        ) : (
          <p>{t.noCurrent}</p>
        )}
      </section>
      <section>
        <h2>{t.light}</h2>
        <ul class="tide-marks">
          {of.light.events.map(({ time, change }) => (
            <li key={change + time}>
              <b>{clock(time * 1000)}</b> {t.changes[change]}
            </li>
          ))}
        </ul>
        <p>
          {t.courses[of.light.sun] && `${t.sun}: ${t.courses[of.light.sun]}. `}
          {t.moon(`${numeral(of.light.moon.illuminated * 100)} %`, of.light.moon.waxing)}
        </p>
      </section>
    </>
  );
}

const oneDay = 86_400;

/** How it runs now at the station whose turns stand below, and until when: past midnight too. */
function FlowNow({ of, place, now }: { of: Prediction; place: OfDay["place"]; now: number }) {
  const { answer } = useAnswer("stream", {
    station: of.station.id,
    place: placeOf(place),
    from: now,
    until: now + oneDay,
    step: oneDay,
  });
  return answer ? <p class="large-words">{flowWords(answer)}</p> : null;
}

const Marks = ({ of, say }: { of: Mark[]; say: (value: number) => string }) => (
  <ul class="tide-marks">
    {of.map(({ time, turn, value }) => (
      <li key={time}>
        <b>{clock(time * 1000)}</b> {t.turns[turn]} {!turn.startsWith("slack") && say(value)}
      </li>
    ))}
  </ul>
);

/** The depth by chart and tide, and Lines set to it by a tap: nothing is corrected silently. */
function DepthNow() {
  const now = chartedDepth.value;
  if (!now) return null;
  const { depth, height: rise } = now;
  return (
    <>
      <p role="status">{t.depthNow(height(depth), height(rise))}</p>
      <button
        type="button"
        class="button"
        onClick={once(() => changeUndoably(t.bottomSet(height(depth)), { bottom: depth }))}
      >
        {t.setBottom(height(depth))}
      </button>
    </>
  );
}
