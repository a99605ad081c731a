/** Looks through all trips, the latest first, one after the other: the first hits are there at once. */
import { type Folded, foldAll } from "../entry/fold";
import { book } from "../log/log";
import type { Trip } from "../log/one";
import type { Summary } from "../log/summary";
import { tripName } from "./trip-name";
import { kindName, recordWords } from "./words";

export interface Hit {
  trip: Trip;
  record: Folded;
}

/** More is not read anyway. */
const most = 100;

export async function* search(trips: Trip[], wanted: string, over: AbortSignal): AsyncGenerator<Hit[]> {
  const words = plain(wanted).split(/\s+/).filter(Boolean);
  let found = 0;
  for (const trip of trips) {
    if (over.aborted || found >= most) return;
    const records = foldAll(await book.entriesOf(trip.parts));
    const hits = records.filter((record) => matches(record, trip, words)).map((record) => ({ trip, record }));
    found += hits.length;
    if (!over.aborted && hits.length > 0) yield hits;
  }
}

/** Every word is somewhere in what the record says, or in what its trip is called. */
export function matches(record: Folded, trip: Summary, words: string[]): boolean {
  const said = plain([kindName(record.kind), recordWords(record), tripName(trip)].join(" "));
  return words.every((word) => said.includes(word));
}

/** Without capitals and accents. */
const plain = (words: string): string => words.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
