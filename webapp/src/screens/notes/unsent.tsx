/** What has not reached the boat's server, why, and what to do about it. */

import { effect, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { On } from "../../base/parts/icons";
import { LoadFile } from "../../base/parts/input/load-file";
import { Said, useSaving } from "../../base/parts/input/save-file";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { clock, moment } from "../../base/units/when";
import type { Stored } from "../../state/entry/entry";
import { foldAll } from "../../state/entry/fold";
import { exchangeNow, room, status } from "../../state/exchange/exchange";
import type { Trouble } from "../../state/exchange/run";
import { renote } from "../../state/fish/noting";
import { countOf } from "../../state/log/disk/standing";
import { book, changed, noteIn, standing, tripOf, you } from "../../state/log/log";
import { recordHref } from "../../state/log/refer";
import { boatsTrip, moveNotes } from "../../state/notes/move";
import { tripName } from "../../state/notes/trip-name";
import { kindName, recordWords, refusalWords, timeOf } from "../../state/notes/words";
import { loadNotes, saveNotes } from "../../state/out/files";
import { NotInFile } from "./not-in-file";
import { PhotosOut } from "./photos-out";
import { ClockOff, sendingWords, unsentCount } from "./sending";

const t = text.exchange;

/** So many notes before a guest's phone may bring no more, it is told. */
const few = 300;

export function UnsentPage() {
  const { unsent, refused, kept, photos } = standing.value;
  const enrolled = you.value !== undefined;
  const left = room.value?.entries;
  const { said, saving } = useSaving();
  return (
    <Page title={t.title} back={href("notes")}>
      <p class="large-words" role="status">
        {sendingWords()}
      </p>
      {enrolled && <HeldBack />}
      {enrolled ? (
        <State open={unsentCount() > 0} waiting={unsent > 0 || photos.some(({ why }) => !why)} />
      ) : (
        <Alone />
      )}
      {left !== undefined && left < few && <p class="notice">{t.room(left)}</p>}
      {refused.length > 0 && <h2>{t.refusedTitle}</h2>}
      {refused.map((entry) => (
        <Refused key={entry.id} entry={entry} />
      ))}
      {kept.length > 0 && <h2>{t.keptTitle}</h2>}
      {kept.map((entry) => (
        <Refused key={entry.id} entry={entry} />
      ))}
      {enrolled && <Waiting />}
      {enrolled && <PhotosOut />}
      {countOf(standing.value) > photos.length && (
        <button
          type="button"
          class="button"
          onClick={saving(async () => saveNotes(await book.unsent(), t.title))}
        >
          {t.toFile}
        </button>
      )}
      <Said of={said} />
      <NotInFile />
      <LoadFile name={t.fromFile} onFile={loadNotes} />
    </Page>
  );
}

/** So many of them are named; of more their number is told. */
const named = 30;

/** What goes by itself, or is held back: each a tap away. */
function Waiting() {
  const all = useSignal<Stored[]>([]);
  useEffect(
    () =>
      effect(() => {
        standing.value;
        book.unsent().then((entries) => {
          all.value = entries.filter(({ refused, kept }) => !refused && !kept);
        });
      }),
    [all],
  );
  const records = foldAll(all.value).reverse();
  if (records.length === 0) return null;
  return (
    <>
      <h2>{t.waitingTitle}</h2>
      <ul class="timeline">
        {records.slice(0, named).map((record) => (
          <li key={record.id}>
            <a
              class="told"
              href={record.kind === "trip" ? href("notes", "trip", record.trip) : recordHref(record)}
            >
              <time>{clock(timeOf(record))}</time>
              <span class="told-words">
                <span class="told-line">
                  <b>{kindName(record.kind)}</b> {recordWords(record)}
                </span>
              </span>
            </a>
          </li>
        ))}
      </ul>
      {records.length > named && <p>{t.waitingMore(records.length - named)}</p>}
    </>
  );
}

function Alone() {
  return (
    <>
      <p>{t.alone}</p>
      <a class="button" href={href("enrol")}>
        {text.enrol.come} <On />
      </a>
    </>
  );
}

/** What more than the server in reach is needed for. */
const unlike = new Set<Trouble | undefined>(["stranger", "version", "full", "suspended"]);

function State({ open, waiting }: { open: boolean; waiting: boolean }) {
  const { working, trouble, last } = status.value;
  return (
    <>
      <p>{open ? t.safe : t.nothing}</p>
      <p role="status">{working ? t.working : trouble && t.troubles[trouble]}</p>
      {waiting && !unlike.has(trouble) && <p>{t.byItself}</p>}
      {last !== undefined && <p class="soft">{t.last(moment(last))}</p>}
      <ClockOff from={2} />
      {trouble === "stranger" ? (
        <a class="button" href={href("enrol")}>
          {text.enrol.title} <On />
        </a>
      ) : (
        <button type="button" class="button primary" onClick={once(exchangeNow)}>
          {t.now}
        </button>
      )}
    </>
  );
}

/** Notes of a trip that the boat's server takes nothing of from this phone: why, and the ways out. */
function HeldBack() {
  const { held, heldPhotos } = standing.value;
  if (held.length + heldPhotos.length === 0) return null;
  const trips = [...new Set([...held, ...heldPhotos].map(({ trip }) => trip))];
  const boats = boatsTrip();
  const bring = async () => {
    if (!boats) return;
    for (const trip of trips) renote(trip, boats, await moveNotes(trip, boats));
    noteIn(boats);
  };
  return (
    <>
      <h2>{t.heldTitle}</h2>
      <div class="notice several">
        <p>{t.heldWhy(trips.map((trip) => tripOf(trip)).flatMap((trip) => (trip ? tripName(trip) : [])))}</p>
        {boats && tripOf(boats)?.closed != null && <p>{t.heldClosed}</p>}
        <div class="notice-actions">
          {boats && held.some(({ own }) => own) && (
            <button type="button" class="button primary" onClick={once(bring)}>
              {t.bring}
            </button>
          )}
          <a class="button" href={href("enrol")}>
            {t.askAgain} <On />
          </a>
        </div>
      </div>
    </>
  );
}

function Refused({ entry }: { entry: Stored }) {
  const [record] = foldAll([entry]);
  const { refused, kept } = entry;
  const settle = async (how: "kept" | "refused") => {
    await book.settle(entry.id, how);
    await changed();
  };
  const keepHere = async () => {
    await settle("kept");
    offerUndo(t.keptHere, () => settle("refused"));
  };
  return (
    <div class="notice">
      <p>
        <b>{record ? `${kindName(record.kind)} ${moment(entry.at)}` : moment(entry.at)}</b>{" "}
        {record ? recordWords(record) : text.notes.unreadable}
      </p>
      {(refused ?? kept)?.code !== "kept" && <p>{refusalWords(refused ?? kept ?? { code: "", why: "" })}</p>}
      <div class="notice-actions">
        {record && (
          <a class="button" href={recordHref(record)}>
            {t.change} <On />
          </a>
        )}
        {refused && (
          <button type="button" class="button" onClick={once(keepHere)}>
            {t.keepHere}
          </button>
        )}
      </div>
    </div>
  );
}
