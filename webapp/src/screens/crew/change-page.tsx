/** A checklist to change: its name, its checks, their order. */

import { Gone } from "../../base/parts/gone";
import { Cross, Down, On, Plus, Up } from "../../base/parts/icons";
import { AddLine } from "../../base/parts/input/add-line";
import { TextField } from "../../base/parts/input/text-field";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { goInstead, href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import {
  backAsItCame,
  checkWords,
  dropList,
  isAsItCame,
  isOwn,
  type List,
  listFor,
  listName,
  mostItems,
  moved,
  setList,
} from "../../state/crew/lists";
import { mayChange } from "../../state/crew/role";
import { useRunningTrip } from "../../state/crew/use-trip";

const t = text.crew.list;

/** Letters of a check: two lines of a phone, or three. */
const most = 120;

export function ChangePage({ id }: { id: string }) {
  const list = listFor(id);
  if (mayChange()) return <Changing id={id} />;
  // Whoever may only tick it came here by the address.
  return (
    <Page title={list ? listName(list) : text.crew.listsTitle} back={href("crew")}>
      <p>{t.crews}</p>
      <a class="button" href={list ? href("crew", "list", id) : href("crew")}>
        {list ? listName(list) : text.places.crew} <On />
      </a>
    </Page>
  );
}

function Changing({ id }: { id: string }) {
  const ready = useRunningTrip();
  const list = listFor(id);
  if (!ready) return <main class="page" />;
  if (!list) return <Gone back={href("crew")} />;
  const items = (next: string[]) => setList({ ...list, items: next });
  const add = (said: string) => {
    if (!list.items.includes(said)) items([...list.items, said]);
  };
  return (
    <Page title={listName(list)} back={href("crew", "list", id)}>
      <TextField
        label={t.name}
        value={listName(list)}
        most={40}
        onText={(said) => setList({ ...list, name: said.trim() })}
      />
      <ol class="change">
        {list.items.map((item, i) => (
          <Row key={item} list={list} item={item} at={i} />
        ))}
      </ol>
      {list.items.length < mostItems ? (
        <AddLine label={t.add} most={most} onAdd={add}>
          <Plus /> {t.addButton}
        </AddLine>
      ) : (
        <p>{t.full}</p>
      )}
      <p class="soft">{t.shared}</p>
      {isOwn(id) ? <Drop list={list} /> : <AsItCame list={list} />}
    </Page>
  );
}

function Row({ list, item, at }: { list: List; item: string; at: number }) {
  const said = checkWords(item);
  const { items } = list;
  const set = (next: string[]) => setList({ ...list, items: next });
  const reword = (next: string) => {
    const typed = next.replace(/\s+/g, " ").trim();
    if (typed && !items.includes(typed)) set(items.map((one) => (one === item ? typed : one)));
  };
  const remove = () => {
    set(items.filter((one) => one !== item));
    offerUndo(t.removed(said), () => setList(list));
  };
  return (
    <li>
      <TextField label={t.item(at + 1)} value={said} most={most} onText={reword} long rows={2} />
      <div class="change-row">
        <button
          type="button"
          class="button"
          aria-label={t.up(said)}
          disabled={at === 0}
          onClick={once(() => set(moved(items, at, -1)))}
        >
          <Up />
        </button>
        <button
          type="button"
          class="button"
          aria-label={t.down(said)}
          disabled={at === items.length - 1}
          onClick={once(() => set(moved(items, at, 1)))}
        >
          <Down />
        </button>
        <button type="button" class="button" aria-label={t.remove(said)} onClick={once(remove)}>
          <Cross />
        </button>
      </div>
    </li>
  );
}

function AsItCame({ list }: { list: List }) {
  if (isAsItCame(list)) return <p class="soft">{t.isAsItCame}</p>;
  const back = () => {
    backAsItCame(list);
    offerUndo(t.asItCameDone(listName(list)), () => setList(list));
  };
  return (
    <button type="button" class="button" onClick={once(back)}>
      {t.asItCame}
    </button>
  );
}

function Drop({ list }: { list: List }) {
  const drop = () => {
    offerUndo(t.dropped(listName(list)), dropList(list));
    goInstead("crew");
  };
  return (
    <button type="button" class="button" onClick={once(drop)}>
      {t.drop}
    </button>
  );
}
