/** Who has heard the briefing: everybody taps their own name, and the skipper sees who has. */

import { Check, On, Plus } from "../../base/parts/icons";
import { AddLine } from "../../base/parts/input/add-line";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { clock } from "../../base/units/when";
import { type Guest, guests, setTold } from "../../state/crew/told";
import { useRunningTrip } from "../../state/crew/use-trip";
import { running } from "../../state/log/log";
import { isSaved } from "../../state/log/waiting";
import { writerWords } from "../../state/notes/words";

const t = text.crew.ticking;

export function BriefedPage() {
  const ready = useRunningTrip();
  return (
    <Page title={t.title} back={href("crew")}>
      <p class="large-words">{t.how}</p>
      {ready && (
        <>
          {guests.value.length === 0 && <p>{t.nobody}</p>}
          <ul class="links">
            {guests.value.map((guest) => (
              <li key={guest.name}>
                <Tick guest={guest} />
              </li>
            ))}
          </ul>
          <AddLine label={t.name} most={40} onAdd={(name) => setTold(name, true)}>
            <Plus /> {t.add}
          </AddLine>
          {!running.value && <p class="soft">{t.alone}</p>}
        </>
      )}
      <a class="button" href={href("lines")}>
        {text.enrol.on.lines} <On />
      </a>
    </Page>
  );
}

function Tick({ guest }: { guest: Guest }) {
  const { name, since, record } = guest;
  const done = since !== undefined;
  const by = record?.fields.get("done")?.from;
  const said = !done
    ? t.notYet
    : record && !isSaved(record)
      ? text.notes.saving
      : [t.heard(clock(since)), by && writerWords(by)].filter(Boolean).join(" · ");
  return (
    <button type="button" class="button" aria-pressed={done} onClick={once(() => setTold(name, !done))}>
      <span>
        {name}
        <small class="soft">{said}</small>
      </span>
      <span class="tick">{done && <Check />}</span>
    </button>
  );
}
