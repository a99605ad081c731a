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
