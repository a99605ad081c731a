/** What guests would have a record say: seen by all, taken by the crew with one tap. */
import { batch, useSignal } from "@preact/signals";
import { once } from "../../../base/shell/guard";
import { text } from "../../../base/text/text";
import { byPhone, mayChange } from "../../../state/crew/role";
import { same } from "../../../state/entry/entry";
import type { Folded } from "../../../state/entry/fold";
import { records } from "../../../state/log/log";
import { type Proposal, proposalsFor } from "../../../state/log/saying/proposal";
import { amend, foldedNow } from "../../../state/log/saying/say";
import { fieldName, valueWords, whoWhen } from "../../../state/notes/words";

const t = text.notes.proposals;

/** Of so many phones it is shown what they propose; none of them hides another's by how much it proposes. */
const mostPhones = 5;

/** The first of each phone, which no later one displaces under the thumb, and how many more there are. */
export function Proposed({ record }: { record: Folded }) {
  const phones = byPhone(proposalsFor(record, records.value), ({ from }) => from);
  const more = phones.length - mostPhones;
  return (
    <>
      {phones
        .slice(0, mostPhones)
        .map(
          ([first, ...later]) =>
            first && <OneProposal key={first.record.id} record={record} now={first} later={later} />,
        )}
      {more > 0 && <p class="soft">{t.phones(more)}</p>}
    </>
  );
}

/** A value as it is read; that of a field which is to be empty says so. */
export const saidWords = (kind: string, field: string, value: unknown): string =>
  field === "struck"
    ? value === true
      ? text.gear.rigParts.yes
      : text.gear.rigParts.no
    : valueWords(kind, field, value) || text.notes.unset;

/** What is taken is what stood here when it was read: where it says something else since, that is shown first. */
function OneProposal({ record, now, later }: { record: Folded; now: Proposal; later: Proposal[] }) {
  const read = useSignal(now);
  // What this phone itself writes changes under no thumb.
  const { says, from, unfit } = now.from.own ? now : read.value;
  const changed = !same(now.says, says);
  const decide = (taken: boolean) => {
    // Another may have come since the screen was drawn.
    const latest = proposalsFor(foldedNow(record), records.value).find(
      (one) => one.record.id === now.record.id,
    );
    if (!latest || !same(latest.says, says)) return;
    if (taken) amend(record, says);
    amend(latest.record, { taken });
  };
  const leaveAll = () =>
    batch(() => {
      for (const one of [now, ...later]) amend(one.record, { taken: false });
    });
  return (
    <div class="notice several">
      <p>{t.by(whoWhen(from))}</p>
      {unfit ? (
        <p>{t.unfit}</p>
      ) : (
        Object.entries(says).map(([field, value]) => (
          <p key={field}>
            {fieldName(field)}: <b>{saidWords(record.kind, field, value)}</b>
          </p>
        ))
      )}
      {changed && <p role="status">{t.changed}</p>}
      {later.length > 0 && <p>{t.later(later.length)}</p>}
      {mayChange() || changed ? (
        <div class="notice-actions">
          {changed ? (
            <button type="button" class="button primary" onClick={once(() => (read.value = now))}>
              {t.showAnew}
            </button>
          ) : (
            <>
              {!unfit && (
                <button type="button" class="button primary" onClick={once(() => decide(true))}>
                  {text.notes.record.take}
                </button>
              )}
              <button type="button" class="button" onClick={once(() => decide(false))}>
                {t.leave}
              </button>
              {later.length > 0 && (
                <button type="button" class="button" onClick={once(leaveAll)}>
                  {t.leaveAll(later.length + 1)}
                </button>
              )}
            </>
          )}
        </div>
      ) : (
        <p class="soft">{t.waits}</p>
      )}
    </div>
  );
}
