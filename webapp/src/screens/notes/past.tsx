/** All trips that this phone knows, and a search through everything noted on them. */
import { signal, useSignal } from "@preact/signals";
import { useEffect, useId, useState } from "preact/hooks";
import { On } from "../../base/parts/icons";
import { LoadFile } from "../../base/parts/input/load-file";
import { Said, useSaving } from "../../base/parts/input/save-file";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { cameBackFrom, href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { moment } from "../../base/units/when";
import { projected } from "../../state/log/beside/projecting";
import { running, summaries, unread } from "../../state/log/log";
import type { Trip } from "../../state/log/one";
import { recordHref } from "../../state/log/refer";
import { type Hit, most, readAhead, search } from "../../state/notes/search/search";
import { plainName, tripFacts, tripName } from "../../state/notes/trip-name";
import { kindName, recordWords, timeOf } from "../../state/notes/words";
import { loadEverything, saveEverything, takeDocuments } from "../../state/out/everything";
import { loadNotes } from "../../state/out/files";

const t = text.notes.past;
const all = text.notes.everything;

/** What is searched for, and what was found: still there when one comes back from one of it. */
const wanted = signal("");
const hits = signal<Hit[]>([]);

function seek(words: string): void {
  wanted.value = words;
  hits.value = [];
}

export function PastPage() {
  const id = useId();
  useState(() => {
    if (!cameBackFrom()) seek("");
  });
  const trips = summaries.value ?? [];
  return (
    <Page title={t.title} back={href("notes")}>
      <a class="button" href={href("notes", "season")}>
        {text.produced.open} <On />
      </a>
      <a class="button" href={href("notes", "papers")}>
        {text.papers.open} <On />
      </a>
      <div class="pick">
        <label for={id}>{t.search}</label>
        <input
          id={id}
          type="search"
          autocomplete="off"
          enterkeyhint="search"
          value={wanted.value}
          onInput={(event) => seek(event.currentTarget.value)}
        />
      </div>
      {wanted.value.trim() ? <Hits trips={trips} wanted={wanted.value} /> : <Trips trips={trips} />}
      <Files />
    </Page>
  );
}

/** Everything out into a file, and files in. */
function Files() {
  const waiting = useSignal(new Map<string, unknown>());
  const said = useSignal("");
  const { said: saved, saving } = useSaving();
  const take = () => {
    const unread = takeDocuments(waiting.value);
    waiting.value = new Map();
    said.value = unread > 0 ? all.unread(unread) : "";
  };
  return (
    <>
      <LoadFile
        name={t.load}
        accept=".json,.zip,application/json,application/zip"
        onFile={async (file) => {
          if (!/\.zip$/i.test(file.name)) return loadNotes(file);
          const { said, documents } = await loadEverything(file);
          waiting.value = documents;
          return said;
        }}
      />
      {waiting.value.size > 0 && (
        <div class="notice">
          <p>{all.documents}</p>
          <div class="notice-actions">
            <button type="button" class="button" onClick={once(take)}>
              {all.take}
            </button>
          </div>
        </div>
      )}
      <p role="status">{said.value}</p>
      <button type="button" class="button" onClick={saving(saveEverything)}>
        {all.save}
      </button>
      <Said of={saved} />
      <p class="soft">{all.saveWhat}</p>
    </>
  );
}

function Trips({ trips }: { trips: Trip[] }) {
  if (trips.length === 0) return <p>{t.none}</p>;
  return (
    <ul class="links">
      {trips.map((trip) => (
        <li key={trip.trip}>
          <a class="button" href={href("notes", "trip", trip.trip)}>
            <span>
              <span class={trip.struck ? "struck" : ""}>{plainName(trip)}</span>
              <small class="soft">
                {[
                  tripFacts(trip),
                  trip.parts.length > 1 && t.parts(trip.parts.length),
                  t.hookups(trip.hookups),
                  trip.trip === running.value?.trip && t.running,
                ]
                  .filter(Boolean)
                  .join(" · ")}
              </small>
            </span>
            <On />
          </a>
        </li>
      ))}
    </ul>
  );
}

function Hits({ trips, wanted }: { trips: Trip[]; wanted: string }) {
  /** Undefined once it could not go on: what is not found may be there. */
  const looking = useSignal<boolean | undefined>(true);
  useEffect(() => {
    const over = new AbortController();
    looking.value = true;
    const kept = hits.value.length > 0;
    const look = async () => {
      let all: Hit[] = [];
      for await (const found of search(trips, wanted, over.signal)) {
        all = [...all, ...found];
        if (!kept) hits.value = all;
      }
      // Where one came back to stays there while it is looked for anew.
      if (!over.signal.aborted) hits.value = all;
    };
    // What cannot be read now is read with the search itself.
    readAhead(trips, over.signal).catch(() => undefined);
    // Not with every letter typed.
    const timer = setTimeout(async () => {
      const ended = await look().then(
        () => false,
        () => undefined,
      );
      if (over.signal.aborted) return;
      looking.value = ended;
      if (ended === undefined) unread();
    }, 250);
    return () => {
      clearTimeout(timer);
      over.abort();
    };
  }, [wanted]);
  return (
    <>
      <ul class="links">
        {hits.value.map(({ trip, record }) => (
          <li key={record.id}>
            <a class="button" href={recordHref(record)}>
              <span>
                <span class={record.struck ? "struck" : ""}>
                  <b>{kindName(record.kind)}</b> {recordWords(record)}
                </span>
                <small class="soft">
                  {tripName(trip)} · {moment(timeOf(record))}
                </small>
              </span>
              <On />
            </a>
          </li>
        ))}
      </ul>
      {projected.value === false && <p class="soft">{t.preparing}</p>}
      <p role="status">
        {hits.value.length >= most
          ? t.most(most)
          : looking.value
            ? t.looking
            : looking.value === false && hits.value.length === 0 && t.noHit}
      </p>
    </>
  );
}
