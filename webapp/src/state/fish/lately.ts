/** Fish noted lately on any trip, those that are closed too: two outings of a day have one bag. */
import { effect, signal, untracked } from "@preact/signals";
import type { Folded } from "../entry/fold";
import { LatestRecords } from "../log/beside/latest";
import { projected } from "../log/beside/projecting";
import { changesOf } from "../log/changes";
import { timeOf } from "../notes/words";
import { dayOf } from "./count";

const kinds = ["mark", "bag"];

/** What was hooked the day before may have come up today, ms. */
const before = 24 * 3600_000;

/** So many are read at first: mostly they reach back to another day. */
const atFirst = 40;

export const noted = signal<Folded[]>([]);

const latest = new LatestRecords(kinds);
let gathering: Promise<void> = Promise.resolve();

async function gather(): Promise<void> {
  const from = dayOf(Date.now()) - before;
  for (let count = atFirst; ; count *= 2) {
    const found = await latest.first(count);
    if (!found) return;
    noted.value = found.records.filter((record) => timeOf(record) >= from);
    if (!found.more || noted.value.length < found.records.length) return;
  }
}

/** Gathers them with every change. That the log cannot be read is told where it is read. */
export function keepLately(): () => void {
  const changes = changesOf(kinds);
  return effect(() => {
    projected.value;
    if (changes.value) untracked(() => (gathering = gathering.then(gather).catch(() => undefined)));
  });
}
