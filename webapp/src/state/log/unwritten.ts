/**
 * What has been said and is not on disk yet, in a place that keeps it at once: a page that goes away in the very moment
 * takes its unfinished transactions with it. Photos are too large for that place, and go with the disk alone.
 */
import type { Draft } from "../entry/entry";
import type { Along } from "./book";

/** What was said together, and the trip that was noted in. */
interface Said {
  drafts: Draft[];
  replaced?: Along["replaced"];
  current: string | undefined;
}

const prefix = "wirewake-unwritten-";
let count = 0;

/** Keeps it, and gives the name that it is dropped by; names are in the order of what they stand for. */
export function keep(said: Said): string {
  const [first] = said.drafts;
  const order = [first?.at ?? 0, count++].map((n) => String(n).padStart(16, "0"));
  const key = prefix + [...order, first?.id].join("-");
  try {
    localStorage.setItem(key, JSON.stringify(said));
  } catch {
    // No such place here, or no room in it: then it is on its way to the disk as ever.
  }
  return key;
}

export function drop(key: string): void {
  try {
    localStorage.removeItem(key);
  } catch {
    // Nothing was kept.
  }
}

/** What pages left behind, the earliest first. */
export function left(): { key: string; said: Said }[] {
  try {
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(prefix));
    return keys.sort().flatMap((key) => read(key));
  } catch {
    return [];
  }
}

function read(key: string): { key: string; said: Said }[] {
  try {
    const said = JSON.parse(localStorage.getItem(key) ?? "") as Said;
    return Array.isArray(said.drafts) ? [{ key, said }] : [];
  } catch {
    return [];
  }
}
