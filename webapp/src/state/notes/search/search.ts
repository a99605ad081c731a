/**
 * Looks through the words that are kept of all trips, the latest first, one after the other: the first hits are there at
 * once. Only what is found is read.
 */
import { computed } from "@preact/signals";
import { breather } from "../../../base/shell/soon";
import { text } from "../../../base/text/text";
import { units } from "../../../base/units/settings";
import { byFirst, type Folded, words } from "../../entry/fold";
import { foldIn, type Words } from "../../log/disk/projections";
import { book } from "../../log/log";
import type { Trip } from "../../log/one";
import { tripName } from "../trip-name";
import { kindName, recordWords } from "../words";

export interface Hit {
  trip: Trip;
  record: Folded;
}

/** More is not read anyway. */
export const most = 100;

/** The words of so many trips are read in one go: one by one each would cost a transaction of its own. */
const together = 10;

/** Goes up when records are put into words in another way; what the words themselves are is in the version besides. */
const way = 2;

/** What records say, and how it is kept for the search, in the language and units in use. */
export const sayings = computed<Words>(() => ({
  version: `${way} ${digest(JSON.stringify([units(), text.language, text.units, text.notes, text.crew, text.gear]))}`,
  of: (record) => {
    const said = plain(`${kindName(record.kind)} ${recordWords(record)}`);
    return `${numberOf(record)}\t${said.replace(/\s+/g, " ")}`;
  },
}));

/** Tells one from another, and no more. */
function digest(of: string): string {
  let hash = 5381;
  for (let i = 0; i < of.length; i++) hash = (Math.imul(hash, 33) ^ of.charCodeAt(i)) >>> 0;
  return hash.toString(36);
}

/** The number of the rod that it is of, if it is of one. */
const numberOf = (record: Folded): string => /^\d+/.exec(words(record, "rod") ?? "")?.[0] ?? "";

/** Reads what a search goes through, while what is searched for is still being typed. */
export async function readAhead(trips: Trip[], over: AbortSignal): Promise<void> {
  for (let i = 0; i < trips.length && !over.aborted; i += together) await wordsFrom(trips, i);
}

const wordsFrom = (trips: Trip[], from: number) =>
  book.wordsOf(trips.slice(from, from + together).flatMap(({ parts }) => parts));

export async function* search(trips: Trip[], wanted: string, over: AbortSignal): AsyncGenerator<Hit[]> {
  const all = wordsOf(wanted);
  let found = 0;
  const breathe = breather();
  for (const [i, trip] of trips.entries()) {
    await breathe();
    if (over.aborted || found >= most) return;
    // Once more where it was being read ahead, and could not be.
    if (i % together === 0) await wordsFrom(trips, i).catch(() => wordsFrom(trips, i));
    const name = plain(tripName(trip));
    const pages = await book.wordsOf(trip.parts);
    const ids = pages.flatMap(({ trip, lines }) =>
      matching(lines, name, all).map((record) => ({ trip, record })),
    );
    if (ids.length === 0) continue;
    const here = ids.slice(0, most - found);
    const entries = await book.entriesOfRecords(here.map(({ record }) => record));
    const hits = here
      .flatMap(({ trip }, i) => foldIn(trip, entries[i] ?? []) ?? [])
      .sort(byFirst)
      .map((record) => ({ trip, record }));
    found += hits.length;
    if (!over.aborted) yield hits;
  }
}

/** The records of a page that have every word, they or the name of their trip. */
export function matching(lines: string, name: string, wanted: string[]): string[] {
  const own = wanted.filter((word) => aRod.test(word) || !name.includes(word));
  // Most pages have nothing of it.
  if (!own.every((word) => aRod.test(word) || lines.includes(word))) return [];
  return lines
    .split("\n")
    .slice(1)
    .flatMap((line) => {
      const [record = "", rod, said = ""] = line.split("\t");
      const has = (word: string) =>
        aRod.test(word) ? word.split(/\s+/).at(-1) === rod : said.includes(word);
      return own.every(has) ? [record] : [];
    });
}

/** A rod and its number are one word: “rod 3”. */
const rodWord = plain(text.lines.oneRod(0)).replace(/\s*0$/, "");
const aRod = new RegExp(`${rodWord}\\s+\\d+`);
export const wordsOf = (wanted: string): string[] =>
  plain(wanted).match(new RegExp(`${aRod.source}|\\S+`, "g")) ?? [];

/** Without capitals and accents. */
function plain(words: string): string {
  return words.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}
