/** What was just noted: it is saved already, and this asks what else there is to tell of it. */
import { useMemo, useRef } from "preact/hooks";
import { Gone } from "../../base/parts/gone";
import { Check } from "../../base/parts/icons";
import { Page } from "../../base/parts/page";
import { considered, echo, once } from "../../base/shell/guard";
import { goInstead, href, leave } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { clock } from "../../base/units/when";
import { type Folded, words } from "../../state/entry/fold";
import { records } from "../../state/log/log";
import { refer, useRecord } from "../../state/log/refer";
import { proposalOf } from "../../state/log/saying/proposal";
import { amend, mayAmend, strike } from "../../state/log/saying/say";
import { isSaved } from "../../state/log/waiting";
import { createMark, offerUndoOf } from "../../state/notes/create";
import { type Field, kinds } from "../../state/notes/kinds";
import { spreadIn, spreadNow } from "../../state/notes/snapshot";
import { kindName, positionWords, recordWords, timeOf } from "../../state/notes/words";
import { FieldInput } from "./fields";
import { sendingWords, unsentCount } from "./sending";

const t = text.notes;

/** How long taps on a page that has just come up may still be meant for the one before it. */
const settling = 400;

export function ToldPage({ id }: { id: string }) {
  const record = useRecord(id);
  const appeared = useRef(performance.now());
  if (record === null) return <Gone back={href("notes")} />;
  if (!record) return <main class="page" />;
  const early = (event: MouseEvent) => {
    if (event.detail === 0 || event.timeStamp - appeared.current > settling) return;
    event.preventDefault();
    event.stopPropagation();
  };
  // Whoever marked from where he fishes goes on there.
  const onward = () => (record.kind === "mark" ? leave("notes") : goInstead("notes"));
  const undo = () => {
    strike(record);
    onward();
  };
  const done = () => {
    offerUndoOf(record);
    onward();
  };
  const position = positionWords(record);
  return (
    <Page
      title={`${kindName(record.kind)} ${clock(timeOf(record))}`}
      onClickCapture={early}
      foot={
        <div class="page-foot told-foot">
          <button type="button" class="button" onClick={once(undo, echo.act, considered)}>
            {t.undoNote(kindName(record.kind))}
          </button>
          {record.kind === "mark" && (
            <button
              type="button"
              class="button"
              onClick={once(() => goInstead("notes", "told", refer(createMark())))}
            >
              {t.another}
            </button>
          )}
          <button type="button" class="button primary" onClick={once(done)}>
            {t.done}
          </button>
          <p class="told-sending">{unsentCount() > 0 && sendingWords()}</p>
        </div>
      }
    >
      <p role="status">
        {isSaved(record) ? (
          <>
            <Check /> <b>{t.saved}</b>
          </>
        ) : (
          t.saving
        )}{" "}
        {position.length > 0 ? position.join(", ") : t.noFix}
      </p>
      {spreadIn(record.fields.get("spread")?.value) && record.kind === "lines" ? (
        // All rods as they are set: there is nothing left to ask.
        <p class="large-words">{recordWords(record)}</p>
      ) : (
        <>
          <p class="soft">{t.skip}</p>
          <Questions record={record} />
        </>
      )}
    </Page>
  );
}

/** Every field of a record, to tell or to change; not drawn anew because the record is saved or sent by now. */
export function Questions({ record }: { record: Folded }) {
  const said = record.entries.map(({ id }) => id).join();
  return useMemo(() => <Asked record={record} />, [said, mayAmend(record)]);
}

function Asked({ record }: { record: Folded }) {
  const then = spreadIn(record.fields.get("spread")?.value)?.rods ?? [];
  // Whoever hooks a fish with all lines in, as they were said to be, can say on which rod all the same.
  const rods = then.length > 0 ? then : (spreadNow()?.rods ?? []);
  const mine = mayAmend(record) ? undefined : proposalOf(record, records.value)?.fields.get("says")?.value;
  const proposed = (mine ?? {}) as { [field: string]: unknown };
  const asked = (field: Field) =>
    (!("asTold" in field && field.asTold) || typeof record.fields.get(field.name)?.value === "number") &&
    (!("ifIs" in field && field.ifIs) || words(record, field.ifIs.field) === field.ifIs.value);
  return (
    <div class="form">
      {kinds[record.kind]?.filter(asked).map((field) => (
        <FieldInput
          key={field.name}
          field={field}
          value={field.name in proposed ? proposed[field.name] : record.fields.get(field.name)?.value}
          rods={rods}
          onValue={(value) => amend(record, { [field.name]: value })}
        />
      ))}
    </div>
  );
}
