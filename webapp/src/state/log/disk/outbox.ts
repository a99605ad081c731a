/** What of an entry says how it stands with the server: in the outbox, numbered, refused, kept, replaced. */
import { content, type Stored, type Writer } from "../../entry/entry";

/** The order of the outbox. */
export const inOutbox = ({ out: a = [0, 0] }: Stored, { out: b = [0, 0] }: Stored): number =>
  a[0] - b[0] || a[1] - b[1];

/** An array sorts after every number, so this is after every place in the outbox. */
export const ofTrip = (trip: string) => IDBKeyRange.bound([trip], [trip, [[]]]);

/** In place of the number of what never had one. */
export const never = Number.MAX_SAFE_INTEGER;

/** Puts an entry in the outbox: after all that once had a number, by its count. */
export const sending = (entry: Stored): Stored => ({ ...entry, out: [never, entry.n] });

/** Gives an entry its number: nothing is left to send. */
export const numbered = (entry: Stored, no: number): Stored =>
  without({ ...entry, no }, "out", "once", "refused", "kept", "replaced");

/** The server may not know this number: the entry is sent again, in its old place among the others. */
export const unnumber = (entry: Stored): Stored =>
  without({ ...entry, out: [entry.no ?? never, entry.n] }, "no");

/** What an entry says, or holds for one that cannot be read. */
export const holding = (entry: Stored): Stored =>
  entry.unreadable ? { ...content(entry), set: {}, unreadable: entry.unreadable } : content(entry);

/** Who wrote an entry; nothing of who brought it while that is not settled. */
export const writer = ({ by, byName, via, viaName, mark }: Partial<Writer>): Partial<Writer> => ({
  ...(by !== undefined && byName !== undefined && { by, byName }),
  ...(mark !== undefined && { mark }),
  ...(via !== undefined && viaName !== undefined && { via, viaName }),
});

export function without<K extends keyof Stored>(entry: Stored, ...fields: K[]): Stored {
  const rest = { ...entry };
  for (const field of fields) delete rest[field];
  return rest;
}
