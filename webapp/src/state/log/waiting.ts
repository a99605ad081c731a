/** What has been said and is not on disk yet. */
import { computed, signal } from "@preact/signals";
import type { Draft, Stored } from "../entry/entry";
import type { Folded } from "../entry/fold";
import type { Along } from "./disk/book";

export interface Waiting {
  drafts: Draft[];
  along: Along;
  /** The name that it is kept by until it is on disk. */
  key: string | undefined;
}

/** The earliest first. */
export const waiting = signal<Waiting[]>([]);

/** How many entries are on their way to the disk: nobody else has them. */
export const unwritten = computed(() => waiting.value.reduce((sum, { drafts }) => sum + drafts.length, 0));

/** The same as entries, after all others of this phone. */
export const said = (): Stored[] =>
  waiting.value
    .flatMap(({ drafts }) => drafts)
    .map((draft, i) => ({ ...draft, own: true, n: Number.MAX_SAFE_INTEGER - 10_000 + i }));

/** Whether a record is on disk; without one, whether all is that was said. */
export const isSaved = (record?: Folded): boolean =>
  !waiting.value.some(({ drafts }) => !record || drafts.some((draft) => draft.record === record.id));
