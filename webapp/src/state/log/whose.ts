/** Whose word an entry is. */
import type { Stored } from "../entry/entry";
import { you } from "./log";

/** Whether one of the crew's phones wrote an entry and one brought it. Unknown where the server does not tell: then it is. */
export function isCrews({ own, by, via }: { [F in "own" | "by" | "via"]?: Stored[F] | undefined }): boolean {
  const who = you.value;
  if (own) return who?.may.includes("crew") ?? true;
  const of = (id: string | undefined) => id === undefined || (who?.crew?.includes(id) ?? true);
  return of(by) && of(via);
}

/** As many guests' phones as a server tells of: of more, some that are aboard are missing. */
const mostGuests = 100;

/** Whether the phone that brought an entry to this server is aboard no more; unknown where the server does not tell: then not. */
export function isShutOut({ by, via, no }: Pick<Stored, "by" | "via" | "no">): boolean {
  const { guests, crew } = you.value ?? {};
  const id = via ?? by;
  if (no === undefined || id === undefined || !guests || guests.length >= mostGuests) return false;
  return !guests.includes(id) && crew?.includes(id) === false;
}

/**
 * Whether a phone is a guest's for sure: the server tells it for one, or the phone spoke to this server itself, though it is
 * none of the crew's. Nobody knows whose an id is that came in a file or from another server.
 */
export function isGuestsPhone(id: string | undefined, spoke: boolean): boolean {
  const { guests, crew } = you.value ?? {};
  return id !== undefined && ((guests?.includes(id) ?? false) || (spoke && crew?.includes(id) === false));
}
