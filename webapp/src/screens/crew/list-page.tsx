/** A checklist: a tap ticks one, another takes the tick back. */

import { Gone } from "../../base/parts/gone";
import { Check, On } from "../../base/parts/icons";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { clock } from "../../base/units/when";
import { checkWords, type List, listFor, listName } from "../../state/crew/lists";
import { mayChange } from "../../state/crew/role";
import { beginAnew, doneOf, tick, tickOf } from "../../state/crew/ticks";
import { useRunningTrip } from "../../state/crew/use-trip";
import { running } from "../../state/log/log";
import { isSaved } from "../../state/log/waiting";
import { writerWords } from "../../state/notes/words";
import { Paper, PaperLists, PrintButton } from "./print";
import { WeatherLink } from "./weather";

const t = text.crew;

export function ListPage({ id }: { id: string }) {
  const ready = useRunningTrip();
  const list = listFor(id);
  if (!list) return ready ? <Gone back={href("crew")} /> : <main class="page" />;
  const done = doneOf(list);
  const anew = () => offerUndo(t.list.begunAnew(listName(list)), beginAnew(list));
  return (
    <Page title={listName(list)} back={href("crew")}>
      <p role="status">{list.items.length === 0 ? t.list.empty : t.done(done, list.items.length)}</p>
      <ul class="links">
        {list.items.map((item) => (
          <Item key={item} list={list} item={item} ready={ready} />
        ))}
      </ul>
      {list.items.includes("weather") && <WeatherLink />}
      {ready && !running.value && <p>{t.list.begins}</p>}
      <div class="button-row">
        {done > 0 && (
          <button type="button" class="button" onClick={once(anew)}>
            {t.list.again}
          </button>
        )}
        {mayChange() && (
          <a class="button" href={href("crew", "change", id)}>
            {t.list.edit} <On />
          </a>
        )}
        <PrintButton name={t.print} />
      </div>
      {list.items.some(legalOf) && <p class="soft">{t.legalWhat}</p>}
      <p class="soft">{t.list.practice}</p>
      <Paper title={listName(list)}>
        <PaperLists of={[list]} />
      </Paper>
    </Page>
  );
}

/** What the law asks of it at the least, where that is known. */
const legalOf = (item: string): string | undefined =>
  Object.hasOwn(t.legal, item) ? t.legal[item] : undefined;

function Item({ list, item, ready }: { list: List; item: string; ready: boolean }) {
  const ticked = tickOf(list.list, item);
  const by = ticked?.fields.get("done")?.from;
  return (
    <li>
      <button
        type="button"
        class="button"
        aria-pressed={Boolean(ticked)}
        disabled={!ready}
        onClick={once(() => tick(list.list, item))}
      >
        <span>
          {checkWords(item)}
          {legalOf(item) && <small class="soft">{legalOf(item)}</small>}
          {by && (
            <small class="soft">
              {isSaved(ticked) ? t.list.ticked(writerWords(by), clock(by.at)) : text.notes.saving}
            </small>
          )}
        </span>
        <span class="tick">{ticked && <Check />}</span>
      </button>
    </li>
  );
}
