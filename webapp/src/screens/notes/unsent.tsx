/** What has not reached the boat's server, why, and what to do about it. */

import { On } from "../../base/parts/icons";
import { LoadFile } from "../../base/parts/input/load-file";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { minutes, moment } from "../../base/units/when";
import type { Stored } from "../../state/entry/entry";
import { foldAll } from "../../state/entry/fold";
import { exchangeNow, room, status } from "../../state/exchange/exchange";
import { book, changed, standing, you } from "../../state/log/log";
import { recordHref } from "../../state/log/refer";
import { loadNotes, saveNotes } from "../../state/notes/files";
import { kindName, recordWords, refusalWords } from "../../state/notes/words";
import { PhotosOut } from "./photos-out";
import { sendingWords } from "./sending";

const t = text.exchange;

/** So many notes before a guest's phone may bring no more, it is told. */
const few = 300;

export function UnsentPage() {
  const { unsent, refused, photos } = standing.value;
  const enrolled = you.value !== undefined;
  const left = room.value?.entries;
  return (
    <Page title={t.title} back={href("notes")}>
      <p class="large-words" role="status">
        {sendingWords()}
      </p>
      {enrolled ? (
        <State open={unsent + photos.length > 0} waiting={unsent > 0 || photos.some(({ why }) => !why)} />
      ) : (
        <Alone />
      )}
      {left !== undefined && left < few && <p class="notice">{t.room(left)}</p>}
      {refused.length > 0 && <h2>{t.refusedTitle}</h2>}
      {refused.map((entry) => (
        <Refused key={entry.id} entry={entry} />
      ))}
      {enrolled && <PhotosOut />}
      {(unsent > 0 || refused.length > 0) && (
        <button
          type="button"
          class="button"
          onClick={once(async () => saveNotes(await book.unsent(), t.title))}
        >
          {t.toFile}
        </button>
      )}
      <LoadFile name={t.fromFile} onFile={loadNotes} />
    </Page>
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

function State({ open, waiting }: { open: boolean; waiting: boolean }) {
  const { working, trouble, last, ahead = 0 } = status.value;
  const far = Math.abs(ahead) > 120_000;
  return (
    <>
      <p>{open ? t.safe : t.nothing}</p>
      <p role="status">{working ? t.working : trouble && t.troubles[trouble]}</p>
      {waiting && trouble !== "stranger" && trouble !== "version" && <p>{t.byItself}</p>}
      {last !== undefined && <p class="soft">{t.last(moment(last))}</p>}
      {far && (
        <p class="notice">{t.clock(ahead > 0 ? t.ahead(minutes(ahead)) : t.behind(minutes(-ahead)))}</p>
      )}
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

function Refused({ entry }: { entry: Stored }) {
  const [record] = foldAll([entry]);
  const { refused } = entry;
  if (!refused) return null;
  const keepHere = async () => {
    await book.settle(entry.id, undefined);
    await changed();
    offerUndo(t.keptHere, async () => {
      await book.settle(entry.id, refused);
      await changed();
    });
  };
  return (
    <div class="notice">
      <p>
        <b>{record ? `${kindName(record.kind)} ${moment(entry.at)}` : moment(entry.at)}</b>{" "}
        {record ? recordWords(record) : text.notes.unreadable}
      </p>
      <p>{refusalWords(refused)}</p>
      <div class="notice-actions">
        {record && (
          <a class="button" href={recordHref(record)}>
            {t.change} <On />
          </a>
        )}
        <button type="button" class="button" onClick={once(keepHere)}>
          {t.keepHere}
        </button>
      </div>
    </div>
  );
}
