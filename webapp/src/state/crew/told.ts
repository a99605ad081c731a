/** Who has been through the briefing, and has said so. Without a trip the phone remembers until one begins. */
import { computed } from "@preact/signals";
import { Kept } from "../../base/store/kept";
import { list, number, record, words } from "../../base/store/shape";
import { type Folded, words as wordsOf } from "../entry/fold";
import { running } from "../log/log";
import { bareName } from "../log/names";
import { amend, note } from "../log/saying/say";
import { peopleAboard, tripRecords } from "./trip";

interface Ticked {
  name: string;
  /** ms since 1970. */
  at: number;
}

/** Ticked while no trip ran. */
export const waitingTicks = new Kept<Ticked[]>(
  "briefed",
  list(record<Ticked>({ name: words, at: number }), 60),
  [],
);

/** Yesterday's guests are not today's. */
const lasting = 18 * 3600_000;

export const stillWaiting = (): Ticked[] => waitingTicks.value.filter(({ at }) => Date.now() - at < lasting);

export interface Guest {
  name: string;
  /** Since when, ms since 1970; undefined: not yet. */
  since?: number;
  record?: Folded;
}

export const guests = computed<Guest[]>(() => {
  const all = new Map<string, Guest>();
  for (const name of peopleAboard()) all.set(bareName(name), { name });
  for (const one of tripRecords("briefed") ?? []) {
    const name = !one.struck && wordsOf(one, "person");
    if (!name) continue;
    const known = all.get(bareName(name));
    if (known?.record) continue;
    const done = one.fields.get("done");
    all.set(bareName(name), {
      name: known?.name ?? name,
      record: one,
      ...(done?.value === true && { since: done.from.at }),
    });
  }
  for (const { name, at } of running.value ? [] : stillWaiting())
    all.set(bareName(name), { name, since: at });
  return [...all.values()];
});

/** Ticks for this person, or takes the tick back. */
export function setTold(name: string, told: boolean): void {
  if (!running.value) {
    const others = waitingTicks.value.filter((one) => bareName(one.name) !== bareName(name));
    waitingTicks.set(told ? [...others, { name, at: Date.now() }] : others);
    return;
  }
  const known = guests.value.find((one) => bareName(one.name) === bareName(name));
  if (!known) note("person", { name });
  if (known?.record) amend(known.record, { done: told });
  else note("briefed", { person: name, done: told });
}
