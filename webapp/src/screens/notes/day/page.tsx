/** A trip drawn: the track with what happened on it, the lures over the bottom, and each strike with its depth. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Gone } from "../../../base/parts/gone";
import { Page } from "../../../base/parts/page";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { clock } from "../../../base/units/when";
import type { Folded } from "../../../state/entry/fold";
import { records, running, shownTrip, summaries, tripOf } from "../../../state/log/log";
import { recordHref, refer, useTrip } from "../../../state/log/refer";
import { tripName } from "../../../state/notes/trip-name";
import { recordWords, timeOf } from "../../../state/notes/words";
import { type Depths as DepthsOf, depthsOf, happenedOf, trackOf } from "../../../state/produced/day";
import { effortOf } from "../../../state/produced/effort";
import { hoursOf } from "../../../state/tide/water";
import { bringTraces, rowsOf, type Sounded, thinned } from "../../../state/traces/traces";
import { Chart, type Flow } from "./chart";
import { Depths, depthWords } from "./depths";
import { Key } from "./key";

const t = text.produced.day;
const hour = 3_600_000;

export function DayPage({ id }: { id: string }) {
  useTrip(id);
  const trip = tripOf(id);
  if (summaries.value && !trip) return <Gone back={href("notes")} />;
  if (!trip || shownTrip.value !== trip.trip) return <main class="page" />;
  const end = trip.closed ?? (running.value?.trip === trip.trip ? Date.now() : trip.last);
  return (
    <Page title={t.title} back={href("notes", "trip", trip.trip)} kind="day-page">
      <p class="large-words">{tripName(trip)}</p>
      <Drawn records={records.value} end={end} parts={trip.parts} />
    </Page>
  );
}

function Drawn({ records, end, parts }: { records: Folded[]; end: number; parts: string[] }) {
  const sounded = useSounded(parts);
  const track = trackOf(records, sounded.spots);
  const happened = happenedOf(records);
  const effort = effortOf(records, end);
  const flows = useFlows(track.flat());
  const marks = records.filter(({ kind, struck }) => kind === "mark" && !struck);
  const deep = effort.outs.some(({ rod }) => rod.depth);
  const deepened = deep || sounded.depths.length > 1;
  if (track.length === 0 && !deepened && marks.length === 0) return <p>{t.nothing}</p>;
  return (
    <>
      {track.length > 0 && (
        <section>
          <h2>{t.chartTitle}</h2>
          <Chart track={track} happened={happened} flows={flows} />
          <Key flows={flows.length > 0} happened={happened} />
          <p class="soft">{t.notChart}</p>
        </section>
      )}
      {deepened && (
        <section>
          <h2>{t.depthsTitle}</h2>
          <Depths effort={effort} sounded={sounded.depths} />
          <p class="soft day-key">
            {deep && (
              <>
                <span>
                  <span class="day-swatch lures" /> {t.lures}
                </span>
                <span>
                  <span class="day-swatch bottom" /> {t.bottom}
                </span>
              </>
            )}
            {sounded.depths.length > 1 && (
              <span>
                <span class="day-swatch sounded" /> {t.sounded}
              </span>
            )}
          </p>
        </section>
      )}
      <Strikes marks={marks} passes={records.filter(({ kind, struck }) => kind === "pass" && !struck)} />
    </>
  );
}

/** What the boat's instruments said of it: what is here at once, then with what the boat's server has. */
function useSounded(parts: string[]): Sounded {
  const sounded = useSignal<Sounded>({ spots: [], depths: [] });
  const key = parts.join();
  useEffect(() => {
    let wanted = true;
    const show = async () => {
      const drawn = thinned(await rowsOf(parts));
      if (wanted) sounded.value = drawn;
    };
    // Where their storage does not open the day is drawn without them.
    show()
      .then(() => bringTraces(parts))
      .then(show)
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [key]);
  return sounded.value;
}

/** How the current ran on the hours of the trip, where the tables know. */
function useFlows(spots: { at: number; lat: number; lon: number }[]): Flow[] {
  const flows = useSignal<Flow[]>([]);
  const [first, last] = [spots[0], spots.at(-1)];
  const key = `${first?.at} ${last?.at} ${spots.length}`;
  useEffect(() => {
    let wanted = true;
    const moments: { at: number; lat: number; lon: number }[] = [];
    for (let at = first?.at ?? 0; last && at <= last.at && moments.length < 24; at += hour) {
      const spot = spots.find((one) => one.at >= at);
      if (spot) moments.push({ at, lat: spot.lat, lon: spot.lon });
    }
    if (moments.length > 0)
      hoursOf(moments).then((hours) => {
        if (!wanted) return;
        flows.value = (hours ?? []).flatMap(({ stream }, i) => {
          const at = moments[i]?.at ?? 0;
          return stream?.directed ? [{ at, speed: Math.abs(stream.value), set: stream.set }] : [];
        });
      });
    return () => {
      wanted = false;
    };
  }, [key]);
  return flows.value;
}

function Strikes({ marks, passes }: { marks: Folded[]; passes: Folded[] }) {
  const depths = useSignal(new Map<string, DepthsOf>());
  const key = marks.map(({ id, entries }) => id + entries.length).join();
  useEffect(() => {
    let wanted = true;
    depthsOf(marks).then((all) => {
      if (wanted) depths.value = new Map(all.map((one) => [one.mark.id, one]));
    });
    return () => {
      wanted = false;
    };
  }, [key]);
  const all = [...marks, ...passes].sort((a, b) => timeOf(a) - timeOf(b));
  if (all.length === 0) return null;
  return (
    <section>
      <h2>{t.strikes}</h2>
      {[...depths.value.values()].some(({ now }) => !now) && <p class="soft">{t.nowNot}</p>}
      <ul class="day-strikes">
        {all.map((record) => {
          const of = depths.value.get(record.id);
          return (
            <li key={record.id}>
              <a href={recordHref(record)}>
                <b>{clock(timeOf(record))}</b> {record.kind === "pass" && `${t.pass} `}
                {recordWords(record)}
              </a>
              {of?.asThen && <p>{depthWords(t.atStrike, of.asThen, of.bottom)}</p>}
              {of?.now && <p>{depthWords(t.now, of.now, of.bottom)}</p>}
              <a class="button" href={href("notes", "back", refer(record))}>
                {t.back}
              </a>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
