/** Counts the changes of the log by kind, and tells of which records they are: whoever computes from some looks again only for these. */
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Stored } from "../entry/entry";

/** How often all of the log was read, and how often besides something of a kind was put. */
interface Changes {
  whole: number;
  of: ReadonlyMap<string, number>;
}

type Listener = (put: Stored[] | undefined) => void;
const listeners = new Set<Listener>();

const changes = signal<Changes>({ whole: 0, of: new Map() });

/** Something was put, or undefined: all of the log was read. */
export function count(put: Stored[] | undefined): void {
  for (const tell of listeners) tell(put);
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

/** Tells of every change that may be of these kinds: of which records it is, or undefined where it may be of any. */
export function onChange(
  kinds: readonly string[],
  tell: (records: string[] | undefined) => void,
): () => void {
  const heard: Listener = (put) => {
    const own = put?.filter(({ kind }) => kinds.includes(kind));
    if (!own || own.length > 0) tell(own && [...new Set(own.map(({ record }) => record))]);
  };
  listeners.add(heard);
  return () => listeners.delete(heard);
}
