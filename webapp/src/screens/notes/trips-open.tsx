/**
 * What has to be asked and told of trips, to everybody aboard: two that are open at once, those that nobody has closed,
 * and one that was closed.
 */
import { Act, Notice } from "../../base/parts/notice";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { clock, moment } from "../../base/units/when";
import { mayChange } from "../../state/crew/role";
import { twoTrips, unclosed } from "../../state/log/asks";
import { running } from "../../state/log/log";
import type { Trip } from "../../state/log/one";
import { goOnIn, sayOfTrip } from "../../state/log/saying/say";
import { closedTrip, heardOf } from "../../state/notes/closing";
import { tripFacts, tripName } from "../../state/notes/trip-name";

const t = text.notes.trips;

const Facts = ({ of }: { of: Trip }) => (
  <span>
    {of.name || of.ground ? `${tripName(of)}: ` : ""}
    {tripFacts(of)}, {text.notes.past.hookups(of.hookups)}
  </span>
);

/** Asked once: what is answered is an entry, and every phone has it. */
export function TwoTrips() {
  const two = twoTrips.value;
  if (!two) return null;
  const [first, second] = two;
  const one = () => {
    sayOfTrip(second.trip, { into: first.trip });
    offerUndo(t.madeOne, () => sayOfTrip(second.trip, { into: null }));
  };
  const keep = () => {
    sayOfTrip(second.trip, { apart: true });
    offerUndo(t.keptTwo, () => sayOfTrip(second.trip, { apart: null }));
  };
  return (
    <Notice
      actions={
        <>
          <Act onTap={one}>{t.one}</Act>
          <Act onTap={keep}>{t.keepTwo}</Act>
        </>
      }
    >
      <b>{t.two}</b>
      <span class="two-trips">
        {[first, second].map((trip) => (
          <Facts key={trip.trip} of={trip} />
        ))}
      </span>
      {t.twoWhat}
    </Notice>
  );
}

/** So many trips that were left open are named; of more their number is told. */
const named = 3;

/** Trips that nobody closed and nobody has noted in for long: asked until they are closed, or one of them goes on. */
export function UnclosedTrips() {
  const all = unclosed.value;
  const [old] = all;
  if (!old) return null;
  const close = () => {
    for (const { trip } of all) sayOfTrip(trip, { closed: Date.now() });
    offerUndo(t.closedOld(all.length), () => {
      for (const { trip } of all) sayOfTrip(trip, { closed: null });
    });
  };
  const goOn = () => {
    const now = running.value;
    if (!now) {
      goOnIn(old.trip);
      return;
    }
    sayOfTrip(now.trip, { into: old.trip });
    offerUndo(t.madeOne, () => sayOfTrip(now.trip, { into: null }));
  };
  return (
    <Notice
      actions={
        <>
          <Act onTap={close}>{t.closeOld(all.length)}</Act>
          {all.length === 1 && <Act onTap={goOn}>{t.goOn}</Act>}
        </>
      }
    >
      <b>{t.unclosed(all.length)}</b>
      <span class="two-trips">
        {all.slice(0, named).map((trip) => (
          <Facts key={trip.trip} of={trip} />
        ))}
      </span>
      {t.lastNote(moment(Math.max(...all.map(({ last }) => last))))} {!running.value && t.nextBegins}
    </Notice>
  );
}

export function ClosedTrip() {
  const trip = closedTrip.value;
  if (!trip) return null;
  const { closed, closedBy } = trip;
  return (
    <Notice
      actions={
        <>
          {mayChange() && (
            <Act onTap={() => sayOfTrip(trip.trip, { closed: null })}>{text.notes.trip.reopen}</Act>
          )}
          <Act onTap={() => heardOf.set({ trip: trip.trip, closed: closed ?? 0 })}>{text.notices.noted}</Act>
        </>
      }
    >
      {t.closedBy(tripName(trip), closedBy ?? "", clock(closed ?? 0))} {!mayChange() && t.closedGuest}
    </Notice>
  );
}
