/** What the skipper is asked to report: landings and releases by day, species, length, waters and person. */
import { foldAll, number, words } from "../entry/fold";
import { book, rootOf, summaries } from "../log/log";
import type { Trip } from "../log/one";

export interface Fish {
  /** What is not told is empty. */
  species: string;
  person: string;
  fate: "kept" | "released" | "";
  /** m, each that was measured. */
  lengths: number[];
  count: number;
}

export interface Landing {
  trip: Trip;
  /** The skipper counted; 0: not told. */
  aboard: number;
  fish: Fish[];
}

/** Of the trips that were begun from a time until another, the earliest first. */
export async function landingsOf(from: number, until: number): Promise<Landing[]> {
  const trips = (summaries.value ?? [])
    .filter(({ struck, opened }) => !struck && from <= opened && opened < until)
    .sort((a, b) => a.opened - b.opened);
  const entries = await book.entriesOfKinds(["trip", "mark", "bag"]);
  return trips.map((trip): Landing => {
    const records = foldAll(entries.filter((entry) => rootOf(entry.trip) === trip.trip)).filter(
      ({ struck }) => !struck,
    );
    const fish = new Map<string, Fish>();
    const of = (species: string, person: string, fate: Fish["fate"]): Fish => {
      const key = JSON.stringify([species, person, fate]);
      const known = fish.get(key) ?? { species, person, fate, lengths: [], count: 0 };
      fish.set(key, known);
      return known;
    };
    for (const mark of records.filter(({ kind }) => kind === "mark")) {
      const species = words(mark, "fish") ?? "";
      const fate = words(mark, "fate");
      const length = number(mark, "length");
      // What got off was not landed, and of what nobody told anything nobody knows that it was.
      if (species === "lost" || (!species && !fate && length === undefined)) continue;
      const one = of(
        species,
        words(mark, "person") ?? "",
        fate === "kept" || fate === "released" ? fate : "",
      );
      one.count++;
      if (length !== undefined) one.lengths.push(length);
    }
    // What was counted into the bag and never marked.
    const bags = new Map<string, number>();
    for (const bag of records.filter(({ kind }) => kind === "bag")) {
      const key = JSON.stringify([words(bag, "fish") ?? "", words(bag, "person") ?? ""]);
      bags.set(key, (bags.get(key) ?? 0) + (number(bag, "count") ?? 0));
    }
    for (const [key, count] of bags) {
      const [species, person] = JSON.parse(key) as [string, string];
      const kept = of(species, person, "kept");
      kept.count = Math.max(kept.count, count);
    }
    const own = records.find(({ id, kind }) => kind === "trip" && id === trip.trip);
    const all = [...fish.values()].filter(({ count }) => count > 0);
    return { trip, aboard: (own && number(own, "aboard")) ?? 0, fish: all };
  });
}
