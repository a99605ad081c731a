/** One record: what it says, how it came to say it, and everything one can do about it. */
import { useSignal } from "@preact/signals";
import { Gone } from "../../base/parts/gone";
import { Camera, On } from "../../base/parts/icons";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { apart } from "../../base/text/apart";
import { text } from "../../base/text/text";
import { about, amount } from "../../base/units/show";
import { clock, moment } from "../../base/units/when";
import type { Stored } from "../../state/entry/entry";
import { type Folded, words } from "../../state/entry/fold";
import { rigWords, rodWords, weightsName } from "../../state/gear/names";
import { recordOf, records } from "../../state/log/log";
import { recordHref, refer, useRecord } from "../../state/log/refer";
import { decisionsOf } from "../../state/log/saying/proposal";
import { amend, mayAmend, unstrike } from "../../state/log/saying/say";
import { strikeOut, strikeOutName } from "../../state/log/saying/strike-out";
import { spreadIn } from "../../state/notes/snapshot";
import {
  fieldName,
  kindName,
  positionWords,
  recordWords,
  refusalWords,
  timeOf,
  valueWords,
  whoWhen,
  writerWords,
} from "../../state/notes/words";
import { mayHavePhoto, photosOf } from "../../state/photos/of";
import { Proposed, saidWords } from "./parts/proposed";
import { Thumb, WholePhoto } from "./show";
import { TideThen } from "./tide-then";
import { Questions } from "./told";

const t = text.notes.record;

export function RecordPage({ id }: { id: string }) {
  const record = useRecord(id);
  const changing = useSignal(false);
  if (record === null) return <Gone back={href("notes")} />;
  if (!record) return <main class="page" />;
  const sha256 = record.kind === "photo" ? words(record, "sha256") : undefined;
  const said = recordWords(record);
  const title = `${kindName(record.kind)} ${clock(timeOf(record))}`;
  const change = (on: boolean) => once(() => (changing.value = on));
  // Nothing that grows or shrinks with what is told stands above what is being told.
  if (changing.value) {
    return (
      <Page title={title} back={href("notes")}>
        {!mayAmend(record) && <p class="notice">{text.notes.proposals.what}</p>}
        <Questions record={record} />
        <button type="button" class="button" onClick={change(false)}>
          {text.notes.done}
        </button>
      </Page>
    );
  }
  return (
    <Page title={title} back={href("notes")}>
      {record.struck && <Stroke record={record} />}
      {record.entries.map(
        (entry) =>
          entry.refused && (
            <div key={entry.id} class="notice">
              <p>{t.refused(refusalWords(entry.refused))}</p>
              <div class="notice-actions">
                <button type="button" class="button" onClick={once(() => amend(record, {}))}>
                  {mayAmend(record) ? t.again : text.notes.proposals.propose}
                </button>
              </div>
            </div>
          ),
      )}
      {said && <p class={record.struck ? "large-words struck" : "large-words"}>{said}</p>}
      {sha256 && (
        <WholePhoto
          sha256={sha256}
          alt={words(record, "caption") ?? kindName("photo")}
          missing={t.noPhoto}
          save={t.savePhoto}
          name={`${sha256.slice(0, 12)}.jpg`}
        />
      )}
      <Photos of={record} />
      {positionWords(record).map((line) => (
        <p key={line}>{line}</p>
      ))}
      <TideThen record={record} />
      <Otherwise record={record} />
      <Proposed record={record} />
      <div class="button-row">
        <button type="button" class="button" onClick={change(true)}>
          {mayAmend(record) ? t.change : text.notes.proposals.propose}
        </button>
        {!record.struck && (
          <button type="button" class="button" onClick={once(() => strikeOut(record))}>
            {strikeOutName(record)}
          </button>
        )}
      </div>
      {!record.struck && <p class="soft">{t.strikeWhat}</p>}
      <SpreadThen record={record} />
      <History record={record} />
    </Page>
  );
}

/** Photos of what it tells, and the way to take one; of a photo, what it is of. */
function Photos({ of }: { of: Folded }) {
  const subject = of.kind === "photo" ? recordOf(words(of, "of")) : undefined;
  return (
    <>
      {subject && (
        <a class="button" href={recordHref(subject)}>
          {text.notes.photos.of(`${kindName(subject.kind)} ${clock(timeOf(subject))}`)} <On />
        </a>
      )}
      {photosOf(of).map((photo) => (
        <a key={photo.id} class="told" href={recordHref(photo)}>
          <time>{clock(timeOf(photo))}</time>
          <span class="told-words">
            <b>{kindName("photo")}</b> <span class="told-line">{recordWords(photo)}</span>
          </span>
          <Thumb sha256={words(photo, "sha256") ?? ""} alt="" />
        </a>
      ))}
      {mayHavePhoto(of) && (
        <a class="button" href={href("notes", "photo", refer(of))}>
          <Camera /> {text.notes.photos.ofIt}
        </a>
      )}
    </>
  );
}

function Stroke({ record }: { record: Folded }) {
  const by = record.entries.findLast((entry) => entry.strike || entry.set?.struck === true);
  return (
    <div class="notice">
      <p>{by && t.struckBy(writerWords(by), moment(by.at))}</p>
      <div class="notice-actions">
        <button type="button" class="button" onClick={once(() => unstrike(record))}>
          {mayAmend(record) ? t.unstrike : text.notes.proposals.unstrike}
        </button>
      </div>
    </div>
  );
}

/** What others wrote without knowing of what shows: each one tap away. */
function Otherwise({ record }: { record: Folded }) {
  return [...record.conflicts].flatMap(([field, versions]) =>
    versions.map(({ value, from }) => (
      <div key={field + from.id} class="notice">
        <p>
          {t.otherwise(whoWhen(from))}: {fieldName(field)} <b>{saidWords(record.kind, field, value)}</b>
        </p>
        <div class="notice-actions">
          <button type="button" class="button" onClick={once(() => amend(record, { [field]: value }))}>
            {t.take}
          </button>
        </div>
      </div>
    )),
  );
}

/** So many of the decisions are told, the last ones; the rest is counted. */
const mostDecisions = 10;

/** Every entry as it was written; what no longer holds is struck through. */
function History({ record }: { record: Folded }) {
  const decided = decisionsOf(record, records.value);
  const before = decided.length - mostDecisions;
  return (
    <section class="history">
      <h2>{t.history}</h2>
      <ol>
        {record.entries.map((entry) => (
          <li key={entry.id}>
            <p class="soft">{whoWhen(entry)}</p>
            {entry.strike ? (
              <p>{text.notes.struck}</p>
            ) : (
              Object.entries(entry.set ?? {}).map(([field, value]) => (
                <Said key={field} record={record} entry={entry} field={field} value={value} />
              ))
            )}
          </li>
        ))}
        {before > 0 && (
          <li>
            <p class="soft">{text.notes.proposals.decidedBefore(before)}</p>
          </li>
        )}
        {decided.slice(-mostDecisions).map(({ proposal, entry, taken }) => {
          const [first] = proposal.entries;
          const whose = first ? writerWords(first) : "";
          return (
            <li key={entry.id}>
              <p class="soft">{whoWhen(entry)}</p>
              <p>{taken ? text.notes.proposals.taken(whose) : text.notes.proposals.left(whose)}</p>
            </li>
          );
        })}
      </ol>
    </section>
  );
}

/** Fields that are told elsewhere, or are for machines. */
const elsewhere = [
  "lat",
  "lon",
  "accuracy",
  "sog",
  "cog",
  "fixAge",
  "sha256",
  "bytes",
  "width",
  "height",
  "of",
  "asked",
  "taught",
];

function Said({
  record,
  entry,
  field,
  value,
}: {
  record: Folded;
  entry: Stored;
  field: string;
  value: unknown;
}) {
  if (elsewhere.includes(field)) return null;
  if (field === "struck") return <p>{value === true ? text.notes.struck : t.unstrike}</p>;
  const holds = record.fields.get(field)?.from.id === entry.id;
  const said = valueWords(record.kind, field, value);
  if (!said) return null;
  return (
    <p>
      {fieldName(field)}: {holds ? said : <s>{said}</s>}
    </p>
  );
}

/** The spread as it was set then, rod by rod. */
function SpreadThen({ record }: { record: Folded }) {
  const spread = spreadIn(record.fields.get("spread")?.value);
  if (!spread || spread.rods.length === 0) return null;
  const t = text.lines;
  return (
    <section class="history">
      <h2>{text.notes.spreadOf}</h2>
      <p>
        {text.notes.fields.speed} {about("speed", spread.speed, 0.1)}, {t.dials.bottom.toLowerCase()}{" "}
        {amount("depth", spread.bottom)}
      </p>
      <ol>
        {spread.rods.map((rod, i) => (
          <li key={i}>
            <b>{text.notes.oneRod(i + 1, apart(rodWords(rod.place)))}</b>:{" "}
            {t.setting(amount("line", rod.lineOut), weightsName(rod.drail, rod.sinker))},{" "}
            {apart(rigWords(rod.rig))}
          </li>
        ))}
      </ol>
    </section>
  );
}
