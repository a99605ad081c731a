/** Back to where something was noted: which way, what to steer in the current of now, and the spread as it was. */
import { useEffect } from "preact/hooks";
import { useAnswer } from "../../../base/desk/ask";
import { Gone } from "../../../base/parts/gone";
import { Page } from "../../../base/parts/page";
import { lastFix, watchPosition } from "../../../base/position/position";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { about, amount, lineAmount, numeral } from "../../../base/units/show";
import { course } from "../../../base/units/when";
import { type Folded, number } from "../../../state/entry/fold";
import { rodWords, spoonWords } from "../../../state/gear/names";
import { records } from "../../../state/log/log";
import { useRecord } from "../../../state/log/refer";
import { spreadIn } from "../../../state/notes/snapshot";
import { kindName, recordWords, timeOf } from "../../../state/notes/words";
import { currentNow } from "../../../state/pace/current/found";
import { predictedNow } from "../../../state/pace/current/predicted";
import { spreadBack } from "../../../state/produced/day";
import { changeUndoably } from "../../../state/spread/solved";
import { spread } from "../../../state/spread/spread";

const t = text.produced.back;
const radians = Math.PI / 180;

export function BackPage({ id }: { id: string }) {
  useEffect(watchPosition, []);
  const record = useRecord(id);
  if (record === null) return <Gone back={href("notes")} />;
  if (!record) return <main class="page" />;
  const heading = number(record, "heading") ?? number(record, "cog");
  const [lat, lon] = [number(record, "lat"), number(record, "lon")];
  return (
    <Page title={t.title} back={href("notes", "day", record.trip)}>
      <p class="large-words">
        {kindName(record.kind)} {recordWords(record)}
      </p>
      {lat === undefined || lon === undefined ? <p>{t.noPlace}</p> : <Way lat={lat} lon={lon} />}
      {heading !== undefined && <p>{t.ran(course(heading))}</p>}
      <AsItWas record={withSpread(record)} />
      <p class="soft">{t.care}</p>
    </Page>
  );
}

/** A pass tells no spread: it is as the last note before it had it. */
function withSpread(record: Folded): Folded {
  if (spreadIn(record.fields.get("spread")?.value)) return record;
  const before = records.value.filter(
    (one) => !one.struck && timeOf(one) <= timeOf(record) && spreadIn(one.fields.get("spread")?.value),
  );
  return before.sort((a, b) => timeOf(a) - timeOf(b)).at(-1) ?? record;
}

function Way({ lat, lon }: { lat: number; lon: number }) {
  const fix = lastFix.value?.fix;
  if (!fix) return <p class="large-words">{t.waiting}</p>;
  return <Steer from={fix} to={{ lat, lon }} />;
}

interface Place {
  lat: number;
  lon: number;
}

const spot = ({ lat, lon }: Place) => ({ lat: lat * radians, lon: lon * radians });

function Steer({ from, to }: { from: Place; to: Place }) {
  const current = currentNow();
  const predicted = predictedNow();
  // An age to the minute: the answer does not change by the second.
  const asked = current && { ...current, age: Math.floor((current.age ?? 0) / 60) * 60 };
  const { answer } = useAnswer("way", {
    from: spot(from),
    to: spot(to),
    ...(asked && { current: asked }),
    ...(predicted && { predicted }),
    speed: spread.value.speed,
  });
  if (!answer) return null;
  const { distance, bearing, steer } = answer;
  const miles = distance / 1852;
  const step = miles < 2 ? 0.01 : miles < 20 ? 0.1 : 1;
  const far = distance < 900 ? about("line", distance, 5) : text.tide.miles(numeral(miles, step));
  return (
    <>
      <p class="readout huge">{t.distance(far, course(bearing))}</p>
      {!current && !predicted ? (
        <p>{t.unknownCurrent}</p>
      ) : steer.why ? (
        <p class="large-words">{t.swept}</p>
      ) : (
        <>
          <p class="readout huge">{t.steer(course(steer.heading.mid))}</p>
          <p class="soft">{t.steerWhat}</p>
        </>
      )}
    </>
  );
}

function AsItWas({ record }: { record: Folded }) {
  const then = spreadIn(record.fields.get("spread")?.value);
  if (!then || then.rods.length === 0) return null;
  const back = spreadBack(record);
  return (
    <section>
      <h2>{t.spread}</h2>
      <ol class="day-spread">
        {then.rods.map((rod) => (
          <li key={rod.place}>
            <b>{rodWords(rod.place)}</b> {spoonWords(rod.lure)}, {lineAmount(rod.lineOut)}
            {rod.drail > 0 && `, ${amount("weight", rod.drail)}`}
          </li>
        ))}
      </ol>
      {back ? (
        <>
          <button
            type="button"
            class="button primary"
            onClick={once(() => changeUndoably(t.wasSet, back.patch))}
          >
            {t.set}
          </button>
          {back.lacking > 0 && <p>{t.lacking(back.lacking)}</p>}
        </>
      ) : (
        <p>{t.noGear}</p>
      )}
    </section>
  );
}
