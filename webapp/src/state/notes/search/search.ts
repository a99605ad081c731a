/**
 * Looks through the words that are kept of all trips, the latest first, one after the other: the first hits are there at
 * once. Only what is found is read.
 */
import { computed } from "@preact/signals";
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
const most = 100;

/** So long at a time, ms, that no tap waits for it. */
const longest = 10;

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

export async function* search(trips: Trip[], wanted: string, over: AbortSignal): AsyncGenerator<Hit[]> {
  const all = wordsOf(wanted);
  let found = 0;
  let since = performance.now();
  for (const trip of trips) {
    if (performance.now() - since > longest) {
      await new Promise((done) => setTimeout(done));
      since = performance.now();
    }
    if (over.aborted || found >= most) return;
    const name = plain(tripName(trip));
    const pages = (await Promise.all(trip.parts.map((part) => book.wordsOf(part)))).flat();
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
