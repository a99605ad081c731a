/** Writes what is said: it is called saved only when the disk has it; what fails is told and tried again until it succeeds. */
import { signal } from "@preact/signals";
import { firstRetry, longestRetry, over, tell } from "../../../base/store/kept";
import type { Draft } from "../../entry/entry";
import type { Along } from "../disk/book";
import { book, changed, current as notingIn } from "../log";
import { drop, keep, left } from "../unwritten";
import { type Waiting, waiting } from "../waiting";

/** Goes up with everything that this page has written. */
export const written = signal(0);

/** Writes what a page that went away had said and not written. What is on disk after all is left as it is. */
export async function resume(): Promise<void> {
  for (const { key, said } of left()) {
    const { drafts, replaced, current } = said;
    const along = replaced ? { replaced } : {};
    try {
      await book.append(drafts, along);
      if (current) await book.setMeta("current", current);
      drop(key);
    } catch {
      // No room for it, or no disk: what is there is shown all the same, and it is told and tried again.
      waiting.value = [...waiting.value, { drafts, along, key }];
    }
  }
  if (waiting.value.length > 0) flush();
}

let writing = false;
let wait = firstRetry;
let retry: ReturnType<typeof setTimeout> | undefined;

export function write(drafts: Draft[], along: Along = {}): void {
  const { photos, replaced } = along;
  const key = photos ? undefined : keep({ drafts, ...(replaced && { replaced }), current: notingIn.value });
  waiting.value = [...waiting.value, { drafts, along, key }];
  flush();
}

async function flush(): Promise<void> {
  if (writing) return;
  writing = true;
  clearTimeout(retry);
  try {
    for (let next = waiting.value[0]; next; next = waiting.value[0]) await save(next);
    wait = firstRetry;
    over({ kind: "unsaved", name: "log" });
  } catch (fault) {
    const full = isFull(fault);
    tell({ kind: "unsaved", name: "log", full });
    if (full) await notesFirst();
    retry = setTimeout(flush, wait);
    wait = Math.min(2 * wait, longestRetry);
  } finally {
    writing = false;
  }
}

async function save(next: Waiting): Promise<void> {
  await book.append(next.drafts, next.along).catch(async (fault) => {
    if (!isFull(fault) || !(await book.makeRoom().catch(() => false))) throw fault;
    return book.append(next.drafts, next.along);
  });
  written.value++;
  await changed();
  waiting.value = waiting.value.filter((one) => one !== next);
  if (next.key) drop(next.key);
}

export const isFull = (fault: unknown): boolean => (fault as Error).name === "QuotaExceededError";

/** Where a photo is too much for what room is left, the notes behind it are not. */
async function notesFirst(): Promise<void> {
  for (const next of waiting.value) {
    if (next.along.photos?.length) continue;
    try {
      await save(next);
    } catch {
      return;
    }
  }
}
