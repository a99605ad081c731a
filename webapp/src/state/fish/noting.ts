/** What becomes of a fish, told in the notes of the trip; where none runs it begins one. */
import type { Fields, Stored } from "../entry/entry";
import { type Folded, words } from "../entry/fold";
import { records, refresh, show } from "../log/log";
import { refer } from "../log/refer";
import { amend, mayAmend, strike } from "../log/saying/say";
import { createMark } from "../notes/create";
import { rePhoto } from "../photos/of";
import { begin, change, type Fish, fishes, fishOf, remove } from "./fishes";
import { hookupFor, openHookups, toChoose } from "./hookup";
import { ofTrip } from "./people";

/** What this phone may say what became of: a guest's fish on another's hookup would be a proposal, and in nobody's bag. */
const ours = (marks: Folded[] = []) => [...ofTrip(), ...marks].filter(mayAmend);

/** A fish has come up: the hookup of a moment before, one of these or of the trip, or else one of then. Returns its id. */
export function fishUp(species: string, then = Date.now(), marks: Folded[] = []): string {
  const taken = fishes.value.map((fish) => fish.note);
  const hooked = hookupFor(ours(marks), taken, then);
  return begin(species, refer(hooked ?? createMark(then)), !hooked).id;
}

/** Its note, for a photo of it; begun now where an older app kept the fish on this phone alone. */
export function noteOf({ id, note }: Fish): string | undefined {
  if (!note) change(id, { note: refer(createMark()), began: true });
  return fishOf(id)?.note || undefined;
}

/** Adds to what its note tells. What was undone is told as nothing. */
export async function tell(id: string, set: { [field: string]: unknown }): Promise<void> {
  const fish = fishOf(id);
  if (!fish) return;
  const note = noteOf(fish);
  const record = note && (await recordOf(note));
  if (record) amend(record, set);
}

/** The hookups that this fish may be of, its own with them. */
export const mayBeOf = (fish: Fish): Folded[] =>
  toChoose(
    openHookups(
      ours(),
      fishes.value.filter(({ id }) => id !== fish.id).map(({ note }) => note),
      Date.now(),
    ),
    fish.note,
  );

/** It is on the rod of this hookup: what was told of it goes along. */
export async function isOf(id: string, hookup: Folded): Promise<void> {
  const fish = fishOf(id);
  if (!fish || fish.note === refer(hookup)) return;
  const before = await recordOf(fish.note);
  change(id, { note: refer(hookup), began: false });
  const told = toldOf(fish, before);
  if (before) rePhoto(before, hookup);
  if (before && fish.began) strike(before);
  else if (before && Object.keys(told).length > 0)
    amend(before, Object.fromEntries(Object.keys(told).map((name) => [name, null])));
  if (Object.keys(told).length > 0) amend(hookup, told);
}

/** What was told of a fish so far. */
function toldOf({ species, length, fate, person, bled, iced }: Fish, record: Folded | undefined): Fields {
  const waters = record && words(record, "waters");
  return {
    ...(waters && { waters }),
    ...(length > 0 && { fish: species, length }),
    ...(fate && { fate }),
    ...(person && { person }),
    ...(bled && { bled: bled.wall }),
    ...(iced && { iced: iced.wall }),
  };
}

/** What another phone has told otherwise of the hookup that this fish is of: perhaps it landed another one. */
export function landedElsewhere(fish: Fish): { record: Folded; by: Stored } | undefined {
  const record = records.value.find(({ id }) => fish.note.endsWith(`.${id}`));
  const by = (["fate", "length"] as const)
    .flatMap((name) => {
      const field = record?.fields.get(name);
      return field && field.value !== null && field.value !== fish[name] ? field.from : [];
    })
    .find((one) => !one.own);
  return record && by && { record, by };
}

/** It is another fish than that one: a hookup of its own, and what was told over the other is said again as it was. */
export async function isAnother(id: string): Promise<void> {
  const fish = fishOf(id);
  const before = fish && (await recordOf(fish.note));
  if (!fish || !before) return;
  const anew = createMark(before.entries[0]?.at);
  change(id, { note: refer(anew), began: true });
  const rod = words(before, "rod");
  const told = toldOf(fish, before);
  amend(anew, { ...(rod && { rod }), ...told });
  const theirs = before.entries.filter((entry) => !entry.own && !entry.refused);
  const again = Object.keys(told).map((field) => [
    field,
    theirs.findLast(({ set }) => set && field in set)?.set?.[field] ?? null,
  ]);
  if (before.entries.some((entry) => entry.own) && again.length > 0) amend(before, Object.fromEntries(again));
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
