/** What the skipper is asked to report: landings and releases by day, waters, species, length and person. */

import type { Stored } from "../entry/entry";
import { type Folded, foldAll, number, words } from "../entry/fold";
import { dayOf } from "../fish/count";
import { book, rootOf } from "../log/log";
import { eachOnce, oneSpelling } from "../log/names";
import type { Trip } from "../log/one";
import { onlyOne, whose } from "../notes/whose";
import { timeOf } from "../notes/words";

export interface Fish {
  /** What is not told is empty. */
  species: string;
  person: string;
  fate: "kept" | "released" | "";
  /** m, each that was measured. */
  lengths: number[];
  count: number;
}

/** Of a trip on one day in the same waters. */
export interface Landing {
  trip: string;
  /** The beginning of the day on which they came up, by this phone's clock, ms. */
  day: number;
  /** As the fish were judged by, or else where the trip went; empty: not told. */
  waters: string;
  /** As told, the skipper counted; 0: not told. */
  aboard: number;
  /** How many the trip names. */
  named: number;
  fish: Fish[];
}

/** Of these trips, the earliest first. */
export async function landings(trips: Trip[]): Promise<Landing[]> {
  const entries = await book.entriesOfKinds(["trip", "person", "mark", "bag"]);
  const byTrip = new Map<string, Stored[]>();
  for (const entry of entries) {
    const root = rootOf(entry.trip);
    const others = byTrip.get(root);
    if (others) others.push(entry);
    else byTrip.set(root, [entry]);
  }
  return trips
    .filter(({ struck }) => !struck)
    .flatMap((trip) => landingsOf(trip, foldAll(byTrip.get(trip.trip) ?? [])))
    .sort((a, b) => a.day - b.day);
}

/** Of one trip by its records; one without fish, of the day when it began, where there were none. */
export function landingsOf({ trip, opened, ground }: Trip, records: Folded[]): Landing[] {
  const stand = records.filter(({ struck }) => !struck);
  const own = stand.find(({ id, kind }) => kind === "trip" && id === trip);
  const names = stand.filter(({ kind }) => kind === "person").map((one) => words(one, "name") ?? "");
  const aboard = (own && number(own, "aboard")) ?? 0;
  const named = eachOnce(names).length;
  const spelled = oneSpelling(names);
  const only = onlyOne(stand);
  const all: Landing[] = [];
  const at = (day: number, waters: string): Landing => {
    const known = all.find((one) => one.day === day && one.waters === waters);
    if (known) return known;
    all.push({ trip, day, waters, aboard, named, fish: [] });
    return all[all.length - 1] as Landing;
  };
  for (const mark of stand.filter(({ kind }) => kind === "mark")) {
    const species = words(mark, "fish") ?? "";
    const fate = words(mark, "fate");
    const length = number(mark, "length");
    // What got off was not landed; and a mark of which nothing was told need not have been a fish.
    if (species === "lost" || (!species && !fate && length === undefined)) continue;
    const told = fate === "kept" || fate === "released" ? fate : "";
    const landing = at(dayOf(timeOf(mark)), words(mark, "waters") ?? ground);
    const one = fishIn(landing, species, spelled(whose(mark, only)), told);
    one.count++;
    if (length !== undefined) one.lengths.push(length);
  }
  // What was counted into the bag and never marked.
  const bags = new Map<string, number>();
  for (const bag of stand.filter(({ kind }) => kind === "bag")) {
    const key = JSON.stringify([dayOf(timeOf(bag)), words(bag, "fish") ?? "", spelled(whose(bag, only))]);
    bags.set(key, (bags.get(key) ?? 0) + (number(bag, "count") ?? 0));
  }
  for (const [key, count] of bags) {
    const [day, species, person] = JSON.parse(key) as [number, string, string];
    const marked = all
      .filter((one) => one.day === day)
      .flatMap(({ fish }) => fish)
      .filter((one) => one.species === species && one.person === person && one.fate === "kept")
      .reduce((sum, one) => sum + one.count, 0);
    if (count > marked) fishIn(at(day, ground), species, person, "kept").count += count - marked;
  }
  if (all.length === 0) at(dayOf(opened), ground);
  return all;
}

/** How many of each species were kept, let go and neither told. */
export function sumOf(landings: Landing[]): Pick<Fish, "species" | "fate" | "count">[] {
  const sums: Fish[] = [];
  for (const { species, fate, count } of landings.flatMap(({ fish }) => fish))
    fishIn({ fish: sums }, species, "", fate).count += count;
  return sums.sort((a, b) => (a.species + a.fate < b.species + b.fate ? -1 : 1));
}

function fishIn({ fish }: Pick<Landing, "fish">, species: string, person: string, fate: Fish["fate"]): Fish {
  const known = fish.find((one) => one.species === species && one.person === person && one.fate === fate);
  if (known) return known;
  const one: Fish = { species, person, fate, lengths: [], count: 0 };
  fish.push(one);
  return one;
}
