/** What becomes of a fish, told in the notes of the running trip; without a trip it stays on this phone. */
import type { Folded } from "../entry/fold";
import { amend, records, refresh, running, show, strike } from "../log/log";
import { refer } from "../log/refer";
import { createMark } from "../notes/create";
import { begin, change, type Fish, fishes, fishOf, remove } from "./fishes";
import { hookupFor } from "./hookup";
import { ofTrip } from "./people";

/** A fish has come up: the hookup of a moment ago, or else one of now. Returns its id. */
export function fishUp(species: string): string {
  if (!running.value) return begin(species, "", false).id;
  const taken = fishes.value.map((fish) => fish.note);
  const hooked = hookupFor(ofTrip(), taken, Date.now());
  return begin(species, refer(hooked ?? createMark()), !hooked).id;
}

/** Adds to what its note tells. What was undone is told as nothing. */
export async function tell(id: string, set: { [field: string]: unknown }): Promise<void> {
  const fish = fishOf(id);
  if (!fish) return;
  if (!fish.note && !running.value) return;
  if (!fish.note) change(id, { note: refer(createMark()), began: true });
  const record = await recordOf(fishOf(id)?.note ?? "");
  if (record) amend(record, set);
}

/** It was no fish: the note that was begun with it is struck out. */
export async function takeBack(fish: Fish): Promise<void> {
  remove(fish.id);
  const record = fish.began ? await recordOf(fish.note) : undefined;
  if (record) strike(record);
}

/** Fish whose notes were said anew in another trip follow them. */
export function renote(from: string, to: string, anew: ReadonlyMap<string, string>): void {
  for (const { id, note } of fishes.value) {
    const [trip, record = ""] = note.split(".");
    const now = trip === from && anew.get(record);
    if (now) change(id, { note: refer({ trip: to, id: now }) });
  }
}

async function recordOf(note: string): Promise<Folded | undefined> {
  const [trip = "", id] = note.split(".");
  if (!trip) return undefined;
  const find = () => records.value.find((record) => record.id === id);
  if (find()) return find();
  await show(trip);
  await refresh();
  return find();
}
