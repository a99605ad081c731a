/** Counts the changes of the log by kind, so that whoever computes from some looks again only for these. */
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Stored } from "../entry/entry";

/** How often all of the log was read, and how often besides something of a kind was put. */
interface Changes {
  whole: number;
  of: ReadonlyMap<string, number>;
}

const changes = signal<Changes>({ whole: 0, of: new Map() });

/** Something was put, or undefined: all of the log was read. */
export function count(put: Stored[] | undefined): void {
  const { whole, of } = changes.peek();
  if (!put) {
    changes.value = { whole: whole + 1, of };
    return;
  }
  const more = new Map(of);
  for (const { kind } of put) more.set(kind, (more.get(kind) ?? 0) + 1);
  changes.value = { whole, of: more };
}

/** Goes up with every change of the log that may be of these kinds; 0 until it has been read. */
export const changesOf = (kinds: readonly string[]): ReadonlySignal<number> =>
  computed(() => kinds.reduce((sum, kind) => sum + (changes.value.of.get(kind) ?? 0), changes.value.whole));
