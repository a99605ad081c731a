/** What was noted in a trip that the server takes nothing of, said anew in another. */
import type { Draft, Stored } from "../../entry/entry";
import { firstCursor, logOf, metaIn } from "./db";
import { sending, without } from "./outbox";
import type { Enter, Write } from "./writing";

/** What one record of another trip becomes. */
export interface Moved {
  draft: Draft;
  /** The entries that it says again. */
  of: string[];
}

/** See Book.move. */
export async function moveIn(
  tx: Write,
  enter: Enter,
  from: string,
  to: string,
  records: Moved[],
  away: string[],
): Promise<void> {
  const entries = tx.objectStore("entries");
  const log = logOf((await metaIn(tx, "cursor", firstCursor)).epoch);
  let n = await metaIn(tx, "n", 0);
  const changed: Stored[] = [];
  for (const { draft, of } of records) {
    n++;
    changed.push(sending({ ...draft, n, own: true }));
    for (const id of of) {
      const old = await entries.get(id);
      if (old && old.no === undefined && old.once !== log)
        changed.push(without({ ...old, replaced: draft.id }, "out", "refused", "kept"));
    }
  }
  for (const id of away) {
    const old = await entries.get(id);
    const by = records[0]?.draft.id ?? id;
    if (old && old.no === undefined && old.once !== log)
      changed.push(without({ ...old, replaced: by }, "out", "refused", "kept"));
  }
  await tx.objectStore("meta").put(n, "n");
  await enter(changed);
  for (const shipment of await tx.objectStore("shipments").getAll())
    if (shipment.trip === from && shipment.out)
      await tx.objectStore("shipments").put({ ...shipment, trip: to });
}
