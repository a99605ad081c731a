/** The notes of a trip, the latest first. */

import { useComputed } from "@preact/signals";
import type { VNode } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { Boundary } from "../../base/parts/boundary";
import { clockAhead, isToCome, isTooEarly } from "../../base/phone/clock";
import { soon } from "../../base/shell/soon";
import { text } from "../../base/text/text";
import { clock, day } from "../../base/units/when";
import type { Stored } from "../../state/entry/entry";
import type { Folded } from "../../state/entry/fold";
import { number, words } from "../../state/entry/fold";
import { ofKind, unreadable } from "../../state/log/log";
import { recordHref } from "../../state/log/refer";
import { proposalsFor } from "../../state/log/saying/proposal";
import { isSaved } from "../../state/log/waiting";
import { toldElsewhere } from "../../state/notes/kinds";
import { latestFirst } from "../../state/notes/order/latest";
import { kindName, recordWords, timeOf, writerWords } from "../../state/notes/words";
import { photosOf } from "../../state/photos/of";
import { Thumb } from "./show";

const t = text.notes;

/** More than a trip has; whoever noted more, or was sent more, asks for the older ones. */
const atOnce = 300;

/** So many are drawn at a time, as many as a screen has: who looks waits for no more, nor does a tap. */
const part = 12;

/** The day that stands before a note, by its place: before the first one of each, where there are several. */
function daysOf(told: Folded[]): (at: number) => string | undefined {
  const days: string[] = [];
  // They are in order, and many of them may not be drawn yet.
  const of = (at: number) => {
    const record = told[at];
    if (record) days[at] ??= day(timeOf(record));
    return days[at];
  };
  const several = of(0) !== of(told.length - 1);
  return (at) => (several && of(at) !== of(at - 1) ? of(at) : undefined);
}

/** When each of the trips began that were made one. */
const begunOf = (records: Folded[]): Map<string, number> =>
  new Map(
    records
      .filter(({ kind }) => kind === "trip")
      .map((trip) => [trip.id, number(trip, "opened") ?? timeOf(trip)]),
  );

export function Timeline({ records }: { records: Folded[] }) {
  const [most, setMost] = useState(atOnce);
  const [drawn, setDrawn] = useState(part);
  const all = useMemo(
    () =>
      records
        .filter((record) => !toldElsewhere.includes(record.kind) && !isWithAnother(record, records))
        .sort(latestFirst),
    [records, clockAhead.signal.value],
  );
  const told = useMemo(() => all.slice(0, most), [all, most]);
  const dayAt = useMemo(() => daysOf(told), [told]);
  const row = useRows(begunOf(records));
  const count = Math.max(told.length, Math.min(unreadable.value.length, most));
  useEffect(() => {
    let gone = false;
    if (drawn < count) soon().then(() => gone || setDrawn(drawn + part));
    return () => {
      gone = true;
    };
  }, [drawn, count]);
  const older = Math.max(0, all.length - most) + Math.max(0, unreadable.value.length - most);
  if (told.length === 0 && unreadable.value.length === 0) return <p class="large-words">{t.nothingYet}</p>;
  return (
    <ol class="timeline" aria-label={t.timeline}>
      {told.slice(0, drawn).map((record, i) => row(record, dayAt(i)))}
      {unreadable.value.slice(0, Math.min(most, drawn)).map((entry) => (
        <Unreadable key={entry.id} entry={entry} />
      ))}
      {older > 0 && drawn >= count && (
        <li>
          <button type="button" class="button" onClick={() => setMost(most + atOnce)}>
            {t.older(older)}
          </button>
        </li>
      )}
    </ol>
  );
}

/**
 * What shows a record, and the same again as long as the record is: then it is not drawn anew with one that is put, or with
 * those that come to stand below it. What else a row tells, as that it is saved, it follows by itself.
 */
function useRows(begun: ReadonlyMap<string, number>) {
  const { current: rows } = useRef(new WeakMap<Folded, { said: string; row: VNode }>());
  return (record: Folded, day: string | undefined): VNode => {
    const from = begun.get(record.trip);
    const said = `${from} ${day} ${isToCome(timeOf(record))}`;
    const had = rows.get(record);
    if (had?.said === said) return had.row;
    const row = (
      <li key={record.id}>
        <Boundary what={kindName(record.kind)}>
          <Row record={record} day={day} begun={from} />
        </Boundary>
      </li>
    );
    rows.set(record, { said, row });
    return row;
  };
}

/** A photo of what another note tells is shown with that. */
function isWithAnother(photo: Folded, all: Folded[]): boolean {
  const of = photo.kind === "photo" && !photo.struck && words(photo, "of");
  return !!of && all.some((record) => record.id === of && !record.struck);
}

/** What cannot be read has its place all the same: somebody wrote it. */
const Unreadable = ({ entry }: { entry: Stored }) => (
  <li class="unreadable">
    <p>
      {t.unreadable} <small class="soft">{writerWords(entry)}</small>
    </p>
  </li>
);

interface RowProps {
  record: Folded;
  day: string | undefined;
  /** When its trip began, ms since 1970. */
  begun: number | undefined;
}

function Row({ record, day, begun }: RowProps) {
  const first = record.entries[0];
  const pictures = record.kind === "photo" ? [record] : record.struck ? [] : photosOf(record);
  const photo = pictures[0] && words(pictures[0], "sha256");
  const versions = [...record.conflicts.values()];
  const others = Math.max(0, ...versions.map((all) => all.filter(({ from }) => !from.own).length));
  const proposed = proposalsFor(record, ofKind("proposal")).length;
  const saved = useComputed(() => isSaved(record));
  const more = [
    first && !first.own && writerWords(first),
    isToCome(timeOf(record)) && t.toCome,
    isTooEarly(timeOf(record), begun) && t.tooEarly,
    record.struck && t.struck,
    versions.length > 0 && (others > 0 ? t.versions(others) : t.ownVersion),
    pictures.length > 1 && t.photos.several(pictures.length),
    proposed > 0 && t.proposals.some(proposed),
    !saved.value && t.saving,
  ].filter(Boolean);
  return (
    <>
      {day && <h2>{day}</h2>}
      <a class={record.struck ? "told struck" : "told"} href={recordHref(record)}>
        <time>{clock(timeOf(record))}</time>
        <span class="told-words">
          <span class="told-line">
            <b>{kindName(record.kind)}</b> {recordWords(record)}
          </span>
          {more.length > 0 && <small class="soft">{more.join(" · ")}</small>}
        </span>
        {photo && <Thumb sha256={photo} alt="" />}
      </a>
    </>
  );
}
