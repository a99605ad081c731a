/** What this phone may do besides what all may. A phone that is nobody's but its owner's may do all of it. */
import type { Right } from "../entry/contract";
import type { Stored } from "../entry/entry";
import { you } from "../log/log";

export const may = (right: Right): boolean => you.value?.may.includes(right) ?? true;

/** The lists, the rules and the boat's particulars are the crew's to change; a guest reads and ticks. */
export const mayChange = (): boolean => may("crew");

/** Whether one of the crew's phones wrote an entry and one brought it. Unknown where the server does not tell: then it is. */
export function isCrews({ own, by, via }: { [F in "own" | "by" | "via"]?: Stored[F] | undefined }): boolean {
  const crew = you.value?.crew;
  if (own) return mayChange();
  const of = (id: string | undefined) => id === undefined || (crew?.includes(id) ?? true);
  return of(by) && of(via);
}
