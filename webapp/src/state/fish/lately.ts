/** Fish noted lately on any trip, those that are closed too: two outings of a day have one bag. */
import { effect, signal, untracked } from "@preact/signals";
import type { Folded } from "../entry/fold";
import { LatestRecords } from "../log/beside/latest";
import { projected } from "../log/beside/projecting";
import { onChange } from "../log/changes";
import { timeOf } from "../notes/words";
import { dayOf } from "./count";

const kinds = ["mark", "bag"];

/** What was hooked the day before may have come up today, ms. */
const before = 24 * 3600_000;

export const noted = signal<Folded[]>([]);

const latest = new LatestRecords(kinds);
let gathering: Promise<void> = Promise.resolve();
/** What is noted here is all of it, but for what has been put since. */
let complete = false;

/** These records as they are by now, among all others; or all of them anew. */
async function gather(put?: string[]): Promise<void> {
  const from = dayOf(Date.now()) - before;
  const anew = complete ? put : undefined;
  complete = false;
  const found = anew ? await latest.of(anew) : await latest.since(from);
  if (!found) return;
  complete = true;
  const others = anew ? noted.value.filter(({ id }) => !anew.includes(id)) : [];
  noted.value = [...found, ...others]
    .filter((record) => timeOf(record) >= from)
    .sort((a, b) => timeOf(b) - timeOf(a));
}

/** Gathers them, and with every change what has changed. That the log cannot be read is told where it is read. */
export function keepLately(): () => void {
  const look = (put?: string[]) => {
    gathering = gathering.then(() => gather(put)).catch(() => undefined);
  };
  const stop = [
    onChange(kinds, look),
    effect(() => {
      projected.value;
      untracked(look);
    }),
  ];
  return () => {
    for (const each of stop) each();
  };
}
