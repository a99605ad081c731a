/** The Notes place: what was noted today, and everything to note at the thumb. */
import { Camera, On, Plus, Touch } from "../../base/parts/icons";
import { Place } from "../../base/parts/place";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { ofKind, openTrips, recordOf, records, running, summaries } from "../../state/log/log";
import { useTrip } from "../../state/log/refer";
import { proposalsFor } from "../../state/log/saying/proposal";
import { goOnIn, startTrip } from "../../state/log/saying/say";
import { tripName } from "../../state/notes/trip-name";
import { ClockOff, Sending } from "./sending";
import { Timeline } from "./timeline";
import { ClosedTrip, TwoTrips, UnclosedTrips } from "./trips-open";

const t = text.notes;

/** From so many minutes on whoever only notes, and never looks what is not sent, is told too. */
const clockFar = 10;

export function NotesScreen() {
  const trip = running.value?.trip;
  useTrip(trip);
  return (
    <Place
      title={text.places.notes}
      kind="notes"
      head={
        <div class="notes-head">
          <TripHead />
          <Sending />
        </div>
      }
      deckName={t.deck}
      deck={
        <div class="quick">
          <a class="button" href={href("notes", "touch")}>
            <Touch /> {t.touch}
          </a>
          <a class="button" href={href("notes", "new", "photo")}>
            <Camera /> {t.photo}
          </a>
          <a class="button" href={href("notes", "add")}>
            <Plus /> {t.other}
          </a>
        </div>
      }
    >
      <ClockOff from={clockFar} />
      <TwoTrips />
      <UnclosedTrips />
      <ClosedTrip />
      {trip ? <Timeline records={records.value} /> : summaries.value && <Beginning />}
    </Place>
  );
}

function TripHead() {
  const trip = running.value;
  if (!trip) return <p class="notes-trip">{summaries.value ? t.noTrip : ""}</p>;
  const own = recordOf(trip.trip);
  const proposed = own ? proposalsFor(own, ofKind("proposal")).length : 0;
  return (
    <a class="notes-trip" href={href("notes", "trip", trip.trip)}>
      <span>
        <span class="trip-line">{tripName(trip)}</span>
        {proposed > 0 && <small>{t.proposals.some(proposed)}</small>}
      </span>{" "}
      <On />
    </a>
  );
}

/** No trip runs: what to do about it. */
function Beginning() {
  return (
    <>
      <p>{t.noTripWhy}</p>
      <button type="button" class="button primary" onClick={once(() => startTrip({}))}>
        <Plus /> {t.start}
      </button>
      {openTrips.value.slice(0, 3).map((trip) => (
        <button key={trip.trip} type="button" class="button" onClick={once(() => goOnIn(trip.trip))}>
          {t.goOn(tripName(trip))}
        </button>
      ))}
      <a class="button" href={href("notes", "past")}>
        {t.past.title} <On />
      </a>
    </>
  );
}
