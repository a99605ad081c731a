/** A trip: who is aboard, what is planned, and its end. */

import { Gone } from "../../base/parts/gone";
import { Cross, On, Plus } from "../../base/parts/icons";
import { AddLine } from "../../base/parts/input/add-line";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { go, href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import type { Folded } from "../../state/entry/fold";
import { number, words } from "../../state/entry/fold";
import {
  amend,
  book,
  note,
  noteIn,
  records,
  running,
  shownTrip,
  strike,
  summaries,
} from "../../state/log/log";
import { useTrip } from "../../state/log/refer";
import { saveNotes } from "../../state/notes/files";
import { tripName } from "../../state/notes/trip-name";
import { kindName } from "../../state/notes/words";
import { Timeline } from "./timeline";
import { Questions } from "./told";

const t = text.notes.trip;

export function TripPage({ id }: { id: string }) {
  useTrip(id);
  const summary = summaries.value?.find((trip) => trip.trip === id);
  if (summaries.value && !summary) return <Gone back={href("notes")} />;
  if (!summary || shownTrip.value !== id) return <main class="page" />;
  const own = records.value.find((record) => record.kind === "trip" && record.id === id);
  const isRunning = running.value?.trip === id;
  return (
    <Page title={isRunning ? t.title : t.other} back={href("notes")}>
      {!isRunning && <p class="large-words">{tripName(summary)}</p>}
      {summary.closed !== null && <p class="notice">{t.isClosed}</p>}
      {!isRunning && summary.closed === null && (
        <button type="button" class="button primary" onClick={once(() => noteIn(id))}>
          {t.noteHere}
        </button>
      )}
      {isRunning && <People />}
      {isRunning && (
        <a class="button" href={href("pace", "water")}>
          {text.tide.open}
        </a>
      )}
      {own && (
        <>
          <Ending trip={own} />
          <h2>{t.plan}</h2>
          <Questions record={own} />
        </>
      )}
      <button
        type="button"
        class="button"
        onClick={once(async () => saveNotes(await book.entriesOf(id), tripName(summary)))}
      >
        {t.toFile}
      </button>
      <a class="button" href={href("notes", "past")}>
        {text.notes.past.title} <On />
      </a>
      {!isRunning && <Timeline records={records.value} />}
    </Page>
  );
}

/** First names or nicknames of those aboard. */
function People() {
  const people = records.value.filter((record) => record.kind === "person" && !record.struck);
  const off = (person: Folded) => {
    strike(person);
    offerUndo(t.takeOff(words(person, "name") ?? ""), () => amend(person, { struck: false }));
  };
  return (
    <section class="form">
      <h2>{t.people}</h2>
      {people.length > 0 && (
        <ul class="people">
          {people.map((person) => (
            <li key={person.id}>
              <button
                type="button"
                class="button"
                aria-label={t.takeOff(words(person, "name") ?? "")}
                onClick={once(() => off(person))}
              >
                {words(person, "name") ?? kindName("person")} <Cross />
              </button>
            </li>
          ))}
        </ul>
      )}
      <AddLine label={t.addPerson} most={40} onAdd={(name) => note("person", { name })}>
        <Plus /> {t.add}
      </AddLine>
    </section>
  );
}

function Ending({ trip }: { trip: Folded }) {
  const closed = number(trip, "closed");
  const reopen = () => {
    amend(trip, { closed: null });
    noteIn(trip.trip);
  };
  const close = () => {
    amend(trip, { closed: Date.now() });
    offerUndo(t.closed(words(trip, "name") ?? ""), reopen);
    go("notes");
  };
  return (
    <button type="button" class="button" onClick={once(closed === undefined ? close : reopen)}>
      {closed === undefined ? t.close : t.reopen}
    </button>
  );
}
