/** A trip: who is aboard, what is planned, and its end. */

import { useSignal } from "@preact/signals";
import { Gone } from "../../base/parts/gone";
import { Cross, On, Plus } from "../../base/parts/icons";
import { AddLine } from "../../base/parts/input/add-line";
import { Said, useSaving } from "../../base/parts/input/save-file";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { go, href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { moment } from "../../base/units/when";
import { mayChange } from "../../state/crew/role";
import type { Folded } from "../../state/entry/fold";
import { number, words } from "../../state/entry/fold";
import { book, noteIn, records, running, shownTrip, summaries, tripOf } from "../../state/log/log";
import { bareName } from "../../state/log/names";
import type { Trip } from "../../state/log/one";
import { useTrip } from "../../state/log/refer";
import { amend, goOnIn, mayAmend, note, strike } from "../../state/log/saying/say";
import { tripFacts, tripName } from "../../state/notes/trip-name";
import { kindName, recordWords, timeOf, writerWords } from "../../state/notes/words";
import { saveNotes } from "../../state/out/files";
import { NotInFile } from "./not-in-file";
import { TakeOut } from "./out/take-out";
import { CatchOfTrip } from "./parts/catch";
import { Proposed } from "./parts/proposed";
import { Timeline } from "./timeline";
import { Questions } from "./told";
import { TwoTrips } from "./trips-open";

const t = text.notes.trip;

export function TripPage({ id }: { id: string }) {
  useTrip(id);
  const { said, saving } = useSaving();
  const summary = tripOf(id);
  if (summaries.value && !summary) return <Gone back={href("notes")} />;
  const trip = summary?.trip;
  if (!summary || !trip || shownTrip.value !== trip) return <main class="page" />;
  const own = records.value.find((record) => record.kind === "trip" && record.id === trip);
  const isRunning = running.value?.trip === trip;
  const others = (
    <a class="button" href={href("notes", "past")}>
      {text.notes.past.title} <On />
    </a>
  );
  return (
    <Page title={isRunning ? t.title : t.other} back={href("notes")}>
      {!isRunning && <p class="large-words">{tripName(summary)}</p>}
      <p class="soft">{tripFacts(summary)}</p>
      {!isRunning && others}
      <TwoTrips />
      {!isRunning && <CatchOfTrip of={summary} records={records.value} />}
      {summary.closed !== null && (
        <p class="notice">
          {summary.closedBy === null
            ? t.isClosed
            : text.notes.trips.closedBy(tripName(summary), summary.closedBy, moment(summary.closed))}
        </p>
      )}
      {summary.parts.length > 1 && <Parts of={summary} />}
      {!isRunning && summary.closed === null && (
        <button type="button" class="button primary" onClick={once(() => goOnIn(trip))}>
          {t.noteHere}
        </button>
      )}
      {isRunning && <People />}
      {isRunning && (
        <a class="button" href={href("pace", "water")}>
          {text.tide.open}
        </a>
      )}
      {own && (mayChange() ? <Ending trip={own} /> : <p class="soft">{t.crewCloses}</p>)}
      {own && <Plan of={own} now={isRunning} />}
      <button
        type="button"
        class="button"
        onClick={saving(async () => saveNotes(await book.entriesOf(summary.parts), tripName(summary)))}
      >
        {t.toFile}
      </button>
      <Said of={said} />
      <NotInFile />
      <a class="button" href={href("notes", "day", trip)}>
        {text.produced.day.open} <On />
      </a>
      <a class="button" href={href("notes", "keep", trip)}>
        {text.keepsake.open} <On />
      </a>
      <TakeOut trip={summary} />
      {isRunning && others}
      {!isRunning && <Timeline records={records.value} />}
    </Page>
  );
}

/** What is planned of the trip; the crew tells it straight away while it runs, and a guest proposes. */
function Plan({ of, now }: { of: Folded; now: boolean }) {
  const changing = useSignal(false);
  const told = recordWords(of);
  const straight = now && mayAmend(of);
  const change = (on: boolean) => once(() => (changing.value = on));
  return (
    <>
      <h2>{t.plan}</h2>
      <Proposed record={of} />
      {!straight && !changing.value && (
        <>
          <p>{told || text.notes.unset}</p>
          <button type="button" class="button" onClick={change(true)}>
            {mayAmend(of) ? text.notes.record.change : text.notes.proposals.propose}
          </button>
        </>
      )}
      {changing.value && !mayAmend(of) && <p class="notice">{text.notes.proposals.what}</p>}
      {(straight || changing.value) && <Questions record={of} />}
      {changing.value && !straight && (
        <button type="button" class="button" onClick={change(false)}>
          {text.notes.done}
        </button>
      )}
    </>
  );
}

/** First names or nicknames of those aboard. */
function People() {
  const people = records.value.filter((record) => record.kind === "person" && !record.struck);
  const nameOf = (person: Folded) => words(person, "name") ?? kindName("person");
  const add = (name: string) => {
    if (!people.some((person) => bareName(nameOf(person)) === bareName(name))) note("person", { name });
  };
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
              {mayAmend(person) ? (
                <button
                  type="button"
                  class="button"
                  aria-label={t.takeOff(words(person, "name") ?? "")}
                  onClick={once(() => off(person))}
                >
                  {nameOf(person)} <Cross />
                </button>
              ) : (
                <span class="person">{nameOf(person)}</span>
              )}
            </li>
          ))}
        </ul>
      )}
      <AddLine label={t.addPerson} most={40} onAdd={add}>
        <Plus /> {t.add}
      </AddLine>
    </section>
  );
}

/** Trips that were made one, and the way to part them again. */
function Parts({ of }: { of: Trip }) {
  const own = of.parts.flatMap((part) => records.value.find((record) => record.id === part) ?? []);
  const part = () => {
    for (const one of own) if (words(one, "into")) amend(one, { into: null });
  };
  return (
    <section class="form">
      <p>{text.notes.trips.parts(of.parts.length)}</p>
      <ul class="prose">
        {own.map((one) => (
          <li key={one.id}>
            {[words(one, "name"), moment(timeOf(one)), one.entries[0] && writerWords(one.entries[0])]
              .filter(Boolean)
              .join(" · ")}
          </li>
        ))}
      </ul>
      {mayChange() && (
        <button type="button" class="button" onClick={once(part)}>
          {text.notes.trips.part}
        </button>
      )}
    </section>
  );
}

/** Asked once, since it is closed for everybody aboard. */
function Ending({ trip }: { trip: Folded }) {
  const asking = useSignal(false);
  const closed = number(trip, "closed");
  const reopen = () => {
    amend(trip, { closed: null });
    noteIn(trip.trip);
  };
  const close = () => {
    amend(trip, { closed: Date.now() });
    offerUndo(t.closed(words(trip, "name")), reopen);
    go("notes");
  };
  const ask = (on: boolean) => once(() => (asking.value = on));
  if (closed === undefined && asking.value)
    return (
      <div class="notice" ref={(asked) => asked?.scrollIntoView({ block: "nearest" })}>
        <p>{t.closeAll}</p>
        <div class="notice-actions">
          <button type="button" class="button" onClick={once(close)}>
            {t.closeYes}
          </button>
          <button type="button" class="button" onClick={ask(false)}>
            {t.closeNo}
          </button>
        </div>
      </div>
    );
  return (
    <button type="button" class="button" onClick={closed === undefined ? ask(true) : once(reopen)}>
      {closed === undefined ? t.close : t.reopen}
    </button>
  );
}
