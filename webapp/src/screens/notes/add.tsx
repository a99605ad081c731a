/** Everything else there is to note. What can be noted with one tap is, and asked about after. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { On } from "../../base/parts/icons";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { go, goBack, goInstead, href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { amount } from "../../base/units/show";
import type { Folded } from "../../state/entry/fold";
import { rodWords } from "../../state/gear/names";
import { running } from "../../state/log/log";
import { refer, useTrip } from "../../state/log/refer";
import { foldedNow } from "../../state/log/saying/say";
import { createLines, createOrAmend, createPass, createTouch, offerUndoOf } from "../../state/notes/create";
import { kinds } from "../../state/notes/kinds";
import { rodNow, spreadNow } from "../../state/notes/snapshot";
import { courseNow } from "../../state/pace/motion";
import { soundedSince } from "../../state/rise/behind";
import { depthOverLure } from "../../state/rise/watch";
import { spread } from "../../state/spread/spread";
import { FieldInput } from "./fields";
import { PhotoPage } from "./photo";

const t = text.notes;

export function AddPage() {
  const ask = (record: Folded) => goInstead("notes", "told", refer(record));
  return (
    <Page title={t.add.title} back={href("notes")}>
      <ul class="links">
        <To to={href("notes", "touch")} name={t.add.touch} />
        <Act tap={() => ask(createPass(courseNow(), soundedSince()))} name={t.add.pass} />
        <To to={href("notes", "new", "note")} name={t.add.note} />
        <To to={href("notes", "new", "photo")} name={t.add.photo} />
        <To to={href("notes", "new", "trouble")} name={t.add.trouble} />
        {spread.value.rods.length > 0 && <Act tap={() => ask(createLines())} name={t.add.lines} />}
        <To to={href("notes", "new", "bag")} name={t.add.bag} />
        <To to={href("crew")} name={t.add.tick} />
      </ul>
    </Page>
  );
}

const To = ({ to, name }: { to: string; name: string }) => (
  <li>
    <a class="button" href={to}>
      {name} <On />
    </a>
  </li>
);

const Act = ({ tap, name }: { tap: () => void; name: string }) => (
  <li>
    <button type="button" class="button" onClick={once(tap)}>
      {name}
    </button>
  </li>
);

/** One tap for the rod that touched. */
export function TouchPage() {
  const { rods, bottom } = spread.value;
  return (
    <Page title={t.whichRod} back={href("notes")}>
      <p>
        {t.fields.bottom}: <b>{amount("depth", bottom)}</b>. {t.setOnLines}
      </p>
      {rods.length === 0 && <p>{t.noRods}</p>}
      <ul class="links">
        {rods.map((rod, i) => (
          <li key={rod.id}>
            <button
              type="button"
              class="button"
              onClick={once(() => {
                offerUndoOf(createTouch(rod, "touch", depthOverLure(rod.id)));
                go("notes");
              })}
            >
              <span>
                {t.oneRod(i + 1, rodWords(rodNow(rod).place))}
                <small class="soft">{text.lines.setting(amount("line", rod.lineOut), undefined)}</small>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </Page>
  );
}

/** A record that begins with the first thing told of it. */
export function NewPage({ id: kind }: { id: string }) {
  useTrip(running.value?.trip);
  const begun = useSignal<Folded | undefined>(undefined);
  // Said as one leaves, after the fields have passed on what was entered last.
  useEffect(() => () => queueMicrotask(() => begun.value && offerUndoOf(begun.value)), [begun]);
  if (kind === "photo") return <PhotoPage />;
  const record = begun.value && foldedNow(begun.value);
  return (
    <Page
      title={t.add[kind as keyof typeof t.add] ?? t.add.title}
      foot={
        <div class="page-foot told-foot">
          <a class="button" href={href("notes")} onClick={goBack}>
            {text.parts.back}
          </a>
          <button type="button" class="button primary" onClick={once(() => goInstead("notes"))}>
            {t.done}
          </button>
        </div>
      }
    >
      <div class="form">
        {kinds[kind]?.map((field) => (
          <FieldInput
            key={field.name}
            field={field}
            value={record?.fields.get(field.name)?.value}
            rods={spreadNow()?.rods ?? []}
            onValue={(value) => {
              begun.value = createOrAmend(kind, begun.value, { [field.name]: value });
            }}
          />
        ))}
      </div>
    </Page>
  );
}
