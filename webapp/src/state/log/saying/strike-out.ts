/** A note struck out by whoever may; by a guest, where it is another's, proposed. */
import { offerUndo } from "../../../base/shell/undo";
import { text } from "../../../base/text/text";
import { type Folded, foldAll } from "../../entry/fold";
import { book, records } from "../log";
import { proposalOf } from "./proposal";
import { mayAmend, strike, unstrike } from "./say";

/** What the button is called that does it. */
export const strikeOutName = (record: Folded): string =>
  mayAmend(record) ? text.notes.record.strike : text.notes.proposals.strike;

/** Strikes a record out, or proposes that, with the way back. */
export function strikeOut(record: Folded): void {
  const straight = mayAmend(record);
  const had = !straight && proposalOf(record, records.value);
  strike(record);
  offerUndo(straight ? text.notes.struck : text.notes.proposals.proposed, async () => {
    const proposal = straight ? undefined : proposalOf(record, records.value);
    if (proposal && !had) strike(proposal);
    else unstrike(await asItIsNow(record));
  });
}

/** A record with all that was said of it since: what is said next follows on that. */
export async function asItIsNow(record: Folded): Promise<Folded> {
  const [entries = []] = await book.entriesOfRecords([record.id]);
  return foldAll(entries.filter(({ kind }) => kind === record.kind))[0] ?? record;
}
