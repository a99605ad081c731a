/** Brings what was noted in a trip that the boat's server takes nothing of into the boat's trip. */
import type { Draft } from "../entry/entry";
import { type Folded, foldAll } from "../entry/fold";
import { uuid } from "../entry/uuid";
import { logOf } from "../log/disk/db";
import type { Moved } from "../log/disk/moving";
import { book, changed, rootOf, you } from "../log/log";
import { saying } from "../log/saying/say";
import { written } from "../log/saying/writing";

/** The boat's trip, for a phone that is a guest's. */
export const boatsTrip = (): string | undefined => {
  const who = you.value;
  return who && !who.may.includes("trips") && who.trip ? rootOf(who.trip) : undefined;
};

/**
 * Says each record anew in the other trip, as it is now, with the time at which it was first noted. What one record says
 * of another, as a photo does of a fish, it says of that one's new self. Gives the new of each record.
 */
export async function moveNotes(from: string, to: string): Promise<Map<string, string>> {
  // What others wrote and a file brought is theirs to say. What the boat has already is said with what was added to it.
  const log = logOf((await book.meta("cursor"))?.epoch ?? "");
  const entries = (await book.entriesOf(from)).filter(({ own, no }) => own && no === undefined);
  const records = foldAll(entries).filter(
    ({ kind, entries }) => kind !== "trip" && entries.some(({ once }) => once !== log),
  );
  const anew = new Map(records.map(({ id }) => [id, uuid()]));
  const moved: Moved[] = records.map((record) => ({
    draft: draftOf(record, to, anew),
    of: record.entries.map(({ id }) => id),
  }));
  const ofTrip = entries.filter(({ kind }) => kind === "trip");
  await book.move(
    from,
    to,
    moved,
    ofTrip.map(({ id }) => id),
  );
  written.value++;
  await changed();
  return anew;
}

function draftOf(
  { id, kind, fields, struck, entries }: Folded,
  trip: string,
  anew: Map<string, string>,
): Draft {
  const said = [...fields].map(([name, { value }]) => [
    name,
    (typeof value === "string" && anew.get(value)) || value,
  ]);
  return {
    id: uuid(),
    record: anew.get(id) ?? uuid(),
    kind,
    trip,
    prev: [],
    set: saying({ ...Object.fromEntries(said), ...(struck && { struck }) }),
    at: entries[0]?.at ?? 0,
  };
}
