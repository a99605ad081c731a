/** What has to be asked and told of trips, to everybody aboard: two that are open at once, and one that was closed. */
import { Act, Notice } from "../../base/parts/notice";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { clock } from "../../base/units/when";
import { mayChange } from "../../state/crew/role";
import { sayOfTrip, twoTrips } from "../../state/log/log";
import { closedTrip, heardOf } from "../../state/notes/closing";
import { tripFacts, tripName } from "../../state/notes/trip-name";

const t = text.notes.trips;

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
          <span key={trip.trip}>
            {trip.name || trip.ground ? `${tripName(trip)}: ` : ""}
            {tripFacts(trip)}, {text.notes.past.hookups(trip.hookups)}
          </span>
        ))}
      </span>
      {t.twoWhat}
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
