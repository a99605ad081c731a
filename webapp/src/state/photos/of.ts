/** Photos of what another note tells, such as a fish. */
import { computed } from "@preact/signals";
import { mayChange } from "../crew/role";
import { type Folded, words } from "../entry/fold";
import { ofKind, rootOf, running } from "../log/log";
import { amend, mayAmend } from "../log/saying/say";
import { isCrews } from "../log/whose";

/** How many photos of a trip the server has room for: in all, and of one guest's phone. */
const [most, mostOfGuest] = [200, 60];

/** How many photos of a trip the crew, or one guest, may note, and whether so many are: what guests name is none of it. */
export function photoRoom(photos: Folded[]): { most: number; full: boolean } {
  const crew = mayChange();
  const noted = photos.filter(({ entries: [first], struck }) => {
    return !struck && first && (crew ? isCrews(first) : first.own);
  });
  const room = crew ? most : mostOfGuest;
  return { most: room, full: noted.length >= room };
}

/** Those of the trip on screen by the record they are of, the first taken first; without those struck out. */
const byRecord = computed(() => {
  const all = new Map<string, Folded[]>();
  for (const photo of ofKind("photo")) {
    const of = words(photo, "of");
    if (of && !photo.struck) all.set(of, [...(all.get(of) ?? []), photo]);
  }
  return all;
});

export const photosOf = (record: Pick<Folded, "id">): Folded[] => byRecord.value.get(record.id) ?? [];

/** Only what is of the running trip gets more. */
export const mayHavePhoto = ({ kind, trip, struck }: Folded): boolean =>
  kind === "mark" && !struck && rootOf(trip) === running.value?.trip;

/** What this phone took of the one is of the other. */
export function rePhoto(from: Folded, to: Folded): void {
  for (const photo of photosOf(from))
    if (photo.entries[0]?.own && mayAmend(photo)) amend(photo, { of: to.id });
}
