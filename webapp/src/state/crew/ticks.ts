/** What has been ticked off on this trip. Every trip begins with none. */
import { computed } from "@preact/signals";
import { type Folded, words } from "../entry/fold";
import { amend, note } from "../log/saying/say";
import type { List } from "./lists";
import { tripRecords } from "./trip";

const key = (list: string, item: string): string => `${list}\n${item}`;

const ticks = computed(() => {
  const all = new Map<string, Folded>();
  for (const record of tripRecords("tick") ?? []) {
    if (record.struck) continue;
    const at = key(words(record, "list") ?? "", words(record, "item") ?? "");
    // Two phones that ticked the same apart from each other made two records: the first is the one from then on.
    if (!all.has(at)) all.set(at, record);
  }
  return all;
});

/** The record of a tick that is set. */
export function tickOf(list: string, item: string): Folded | undefined {
  const record = ticks.value.get(key(list, item));
  return record?.fields.get("done")?.value === true ? record : undefined;
}

/** Sets a tick, or takes it back. */
export function tick(list: string, item: string): void {
  const record = ticks.value.get(key(list, item));
  if (record) amend(record, { done: !tickOf(list, item) });
  else note("tick", { list, item, done: true });
}

export const doneOf = ({ list, items }: List): number => items.filter((item) => tickOf(list, item)).length;

/** Takes all ticks of a list back, for the next turn or the next line; returns the way back. */
export function beginAnew({ list, items }: List): () => void {
  const set = items.flatMap((item) => tickOf(list, item) ?? []);
  for (const record of set) amend(record, { done: false });
  return () => {
    for (const record of set) amend(record, { done: true });
  };
}
