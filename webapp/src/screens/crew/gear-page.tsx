/** Gear that had trouble, and what to buy or mend before the next trip. */

import { Gone } from "../../base/parts/gone";
import { Check, On, Plus, Warning } from "../../base/parts/icons";
import { AddLine } from "../../base/parts/input/add-line";
import { Pick } from "../../base/parts/input/pick";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { go, goInstead, href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { putOnShopping, setList, shopping } from "../../state/crew/lists";
import { tripRecords } from "../../state/crew/trip";
import { useRunningTrip } from "../../state/crew/use-trip";
import { itemsOf, nameOf } from "../../state/gear/change";
import { gear, type Kind } from "../../state/gear/gear";
import { isKind } from "../../state/gear/kinds";
import { running } from "../../state/log/log";
import { recordHref } from "../../state/log/refer";
import { create, offerUndoOf } from "../../state/notes/create";
import { choiceName, recordWords } from "../../state/notes/words";

const t = text.crew.gear;

const breakable: Kind[] = ["wires", "nylons", "spoons", "drails"];

export function CrewGearPage() {
  const ready = useRunningTrip();
  const troubles = tripRecords("trouble")?.filter((one) => !one.struck) ?? [];
  return (
    <Page title={t.title} back={href("crew")}>
      <p class="large-words">
        <Warning /> {t.kinked}
      </p>
      <h2>{t.shopping}</h2>
      {ready && <Shopping />}
      <h2>{t.troubles}</h2>
      {troubles.length === 0 && <p>{t.none}</p>}
      <ul class="links">
        {troubles.map((one) => (
          <li key={one.id}>
            <a class="button" href={recordHref(one)}>
              {recordWords(one)} <On />
            </a>
          </li>
        ))}
      </ul>
      <Pick
        label={t.note}
        value=""
        options={[
          { id: "", name: t.choose },
          ...breakable.flatMap((kind) =>
            itemsOf(gear.value, kind).map((item) => ({ id: `${kind}.${item.id}`, name: nameOf(kind, item) })),
          ),
        ]}
        onPick={(id) => id && go("crew", "trouble", id)}
      />
      <a class="button" href={href("notes", "new", "trouble")}>
        {t.other} <On />
      </a>
    </Page>
  );
}

function Shopping() {
  const now = shopping();
  const got = (what: string) => {
    setList({ ...now, items: now.items.filter((one) => one !== what) });
    offerUndo(t.gotDone(what), () => putOnShopping(what));
  };
  return (
    <>
      {now.items.length === 0 && <p>{t.nothing}</p>}
      <ul class="links">
        {now.items.map((what) => (
          <li key={what}>
            <button type="button" class="button" aria-label={t.got(what)} onClick={once(() => got(what))}>
              {what} <Check />
            </button>
          </li>
        ))}
      </ul>
      <AddLine label={t.add} most={120} onAdd={putOnShopping}>
        <Plus /> {t.addButton}
      </AddLine>
    </>
  );
}

/** What happened to one piece: one tap notes it, and puts it on the list. */
export function TroublePage({ id }: { id: string }) {
  const ready = useRunningTrip();
  const [kind = "", itemId = ""] = id.split(".");
  const item = isKind(kind) ? itemsOf(gear.value, kind).find((one) => one.id === itemId) : undefined;
  if (!item || !isKind(kind)) return <Gone back={href("crew", "gear")} />;
  const name = nameOf(kind, item);
  const happened = (what: string) => {
    offerUndoOf(create("trouble", { gear: name, what }));
    putOnShopping(
      kind === "wires" && what === "kink" ? t.toReplace(name) : t.toMend(name, choiceName("what", what)),
    );
    goInstead("crew", "gear");
  };
  return (
    <Page title={t.which(name)} back={href("crew", "gear")}>
      {kind === "wires" && <p class="large-words">{t.kinked}</p>}
      <p>{t.happened}</p>
      {ready && !running.value && <p class="soft">{t.begins}</p>}
      <ul class="links">
        {Object.entries(text.notes.choices.what ?? {}).map(([what, said]) => (
          <li key={what}>
            <button type="button" class="button" disabled={!ready} onClick={once(() => happened(what))}>
              {said}
            </button>
          </li>
        ))}
      </ul>
    </Page>
  );
}
