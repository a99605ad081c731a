/** Looks through all trips, the latest first, one after the other: the first hits are there at once. */

import { text } from "../../base/text/text";
import { type Folded, foldAll, words } from "../entry/fold";
import type { Summary } from "../log/disk/summary";
import { book } from "../log/log";
import type { Trip } from "../log/one";
import { tripName } from "./trip-name";
import { kindName, recordWords } from "./words";

export interface Hit {
  trip: Trip;
  record: Folded;
}

/** More is not read anyway. */
const most = 100;

export async function* search(trips: Trip[], wanted: string, over: AbortSignal): AsyncGenerator<Hit[]> {
  const all = wordsOf(wanted);
  let found = 0;
  for (const trip of trips) {
    if (over.aborted || found >= most) return;
    const records = foldAll(await book.entriesOf(trip.parts));
    const hits = records.filter((record) => matches(record, trip, all)).map((record) => ({ trip, record }));
    found += hits.length;
    if (!over.aborted && hits.length > 0) yield hits;
  }
}

/** A rod and its number are one word: “rod 3”. */
const rodWord = plain(text.lines.oneRod(0)).replace(/\s*0$/, "");
const aRod = new RegExp(`${rodWord}\\s+\\d+`);
export const wordsOf = (wanted: string): string[] =>
  plain(wanted).match(new RegExp(`${aRod.source}|\\S+`, "g")) ?? [];

/** Every word is somewhere in what the record says, or in what its trip is called. */
export function matches(record: Folded, trip: Summary, wanted: string[]): boolean {
  const [number] = /^\d+/.exec(words(record, "rod") ?? "") ?? [];
  const said = plain([kindName(record.kind), recordWords(record), tripName(trip)].join(" "));
  return wanted.every((word) =>
    aRod.test(word) ? word.split(/\s+/).at(-1) === number : said.includes(word),
  );
}

/** Without capitals and accents. */
function plain(words: string): string {
  return words.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}
