/**
 * What has been said and is not on disk yet. Photos are too large for the place that keeps at once, and go with the disk
 * alone.
 */
import { dropAtOnce, keepAtOnce, leftAtOnce, namesLeft } from "../../base/store/at-once";
import type { Draft } from "../entry/entry";
import type { Along } from "./disk/book";

/** What was said together, and the trip that was noted in. */
interface Said {
  drafts: Draft[];
  replaced?: Along["replaced"];
  current: string | undefined;
}

/** Entries are kept under the time at which they were noted, and nothing else is under a number. */
const numbered = /^\d/;
let count = 0;

/** Keeps it, and gives the name that it is dropped by; names are in the order of what they stand for. */
export function keep(said: Said): string {
  const [first] = said.drafts;
  const order = [first?.at ?? 0, count++].map((n) => String(n).padStart(16, "0"));
  const key = [...order, first?.id].join("-");
  keepAtOnce(key, said);
  return key;
}

export const drop = dropAtOnce;

/** What pages left behind, the earliest first. */
export const left = (): { key: string; said: Said }[] =>
  namesLeft(numbered).flatMap((key) => {
    const said = leftAtOnce(key) as Said | undefined;
    return Array.isArray(said?.drafts) ? [{ key, said }] : [];
  });
