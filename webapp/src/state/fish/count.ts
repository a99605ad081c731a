/** Counting the bag: what was kept today, and whose it is. */

import { type Folded, number, words } from "../entry/fold";
import { oneSpelling } from "../log/names";
import { whose } from "../notes/whose";
import type { Fish } from "./fishes";

/** So many fish of a kind in somebody's bag; nobody named: an empty name. */
export interface InBag {
  species: string;
  person: string;
  count: number;
}

/** The beginning of the day of a moment, in ms. */
export const dayOf = (ms: number): number => new Date(ms).setHours(0, 0, 0, 0);

/**
 * What was kept since the day began: the hookups of all trips that were kept, and the fish that only this
 * phone knows; onlyOf tells who alone fishes on the trip of a record, spelled how a person is called. A note of what is in
 * somebody's bag counts where it tells of more. What a clock has in the future counts as of today: rather one too many than
 * one too few.
 */
export function keptToday(
  records: Folded[],
  fishes: Fish[],
  now: number,
  onlyOf: (record: Folded) => string = () => "",
  spelled = oneSpelling(),
): InBag[] {
  const from = dayOf(now);
  const noted = records.filter((record) => record.kind === "mark");
  const marks = noted.filter((record) => isKept(record) && keptAt(record) >= from);
  const only = fishes.filter(
    ({ fate, note, up }) =>
      fate === "kept" && up.wall >= from && !noted.some((record) => note.endsWith(`.${record.id}`)),
  );
  const single = [
    ...marks.map((mark) => bagOf(words(mark, "fish"), spelled(whose(mark, onlyOf(mark))), 1)),
    ...only.map(({ species, person }) => bagOf(species, spelled(person), 1)),
  ];
  const told = records
    .filter((record) => record.kind === "bag" && !record.struck && firstAt(record) >= from)
    .map((bag) => bagOf(words(bag, "fish"), spelled(whose(bag, onlyOf(bag))), number(bag, "count") ?? 0));
  const [counted, said] = [sum(single), sum(told)];
  const same = (one: InBag) => (other: InBag) => one.species === other.species && one.person === other.person;
  return [
    ...counted.map((one) => ({ ...one, count: Math.max(one.count, said.find(same(one))?.count ?? 0) })),
    ...said.filter((one) => !counted.some(same(one))),
  ];
}

const isKept = (mark: Folded) => !mark.struck && words(mark, "fate") === "kept";

/** When it was told that it is kept, by the clock of whoever told it. */
const keptAt = (mark: Folded) => mark.fields.get("fate")?.from.at ?? firstAt(mark);

const firstAt = (record: Folded) => record.entries[0]?.at ?? 0;

const bagOf = (species = "", person = "", count: number): InBag => ({ species, person, count });

function sum(all: InBag[]): InBag[] {
  const out: InBag[] = [];
  for (const one of all) {
    const known = out.find(({ species, person }) => species === one.species && person === one.person);
    if (known) known.count += one.count;
    else out.push({ ...one });
  }
  return out;
}

/** How many of a kind this person and all together have; those of no kind count as any kind. */
export function countOf(bag: InBag[], species: string, person: string): { byPerson: number; byBoat: number } {
  const mine = bag.filter((one) => one.species === species || one.species === "");
  const all = (of: InBag[]) => of.reduce((n, { count }) => n + count, 0);
  return { byPerson: all(mine.filter((one) => one.person === person)), byBoat: all(mine) };
}
