/**
 * What is kept of each record beside its entries, so that nobody reads a trip to find one: of which kind it is and when it
 * was, and its words. Each entry brings it up to date in the transaction that writes it; where it is of an older form it
 * is made anew from the entries, a part at a time.
 */
import type { IDBPTransaction, StoreNames } from "idb";
import type { Stored } from "../../entry/entry";
import { type Folded, foldAll, number } from "../../entry/fold";
import type { LogSchema } from "./db";

/** A record of a trip. */
export interface Line {
  trip: string;
  record: string;
  /** Its kind, and whether it says how the rod was rigged (ofKind). */
  of: string;
  /** When it was, backwards, so that the latest comes first; absent of what is struck out. */
  back?: number;
  /** The page that has its words. */
  page: number;
  /** Goes up with every change of it. */
  turn: number;
}

/** The words of some records of a trip: a line of each, after a line's end, by its id and a tab. */
export interface Page {
  trip: string;
  page: number;
  lines: string;
}

/** What a record says, in one line; it hangs on language, units and the words of this app, and so has a version. */
export interface Words {
  version: string;
  of(record: Folded): string;
}

/** How far the whole log is kept so. */
export interface Projected {
  /** The form of lines that all of it has, and the version of words; 0 and null where that is not so. */
  form: number;
  words: string | null;
  /** It is being made anew: for what, and after which entry, by trip and id. */
  next?: { form: number; words: string; after: [string, string] };
}

/** Goes up when a line or a page becomes something else. */
export const form = 1;

/** Of a log that nothing has been written in. */
export const nothingProjected: Projected = { form, words: null };

/** Records of a kind that say how the rod was rigged, or do not: only the first are computed with. */
export const ofKind = (kind: string, asked: boolean): string => (asked ? `${kind} asked` : kind);

/** From when on; without, however early. */
export const latestOf = (of: string, from?: number) =>
  IDBKeyRange.bound([of], [of, from === undefined ? [] : -from]);

export const ofTrip = (trip: string) => IDBKeyRange.bound([trip], [trip, []]);

/** More records, or more words, go on another page, so that no note costs more than one of these. */
const most = { records: 64, length: 16_000 };

const timeOf = (record: Folded): number => number(record, "was") ?? record.entries[0]?.at ?? 0;

/** Finds the line of a record on a page: where it begins, and where it ends. */
function placeIn(lines: string, record: string): [number, number] | undefined {
  const from = lines.indexOf(`\n${record}\t`);
  if (from < 0) return undefined;
  const end = lines.indexOf("\n", from + 1);
  return [from, end < 0 ? lines.length : end];
}

function put(lines: string, record: string, words: string | undefined): string {
  const [from, end] = placeIn(lines, record) ?? [lines.length, lines.length];
  const line = words === undefined ? "" : `\n${record}\t${words.replace(/\s*\n\s*/g, " ")}`;
  return lines.slice(0, from) + line + lines.slice(end);
}

export const isFullPage = ({ lines }: Page): boolean =>
  lines.length >= most.length || lines.split("\n").length > most.records;

type Write = IDBPTransaction<LogSchema, StoreNames<LogSchema>[], "readwrite">;

/** What has become of a record of a trip; undefined: none of its entries can be read. */
export interface Become {
  trip: string;
  record: string;
  is: Folded | undefined;
}

/** One transaction's part of it. */
export class Projecting {
  private readonly pages = new Map<string, Page>();
  private readonly changed = new Set<Page>();
  /** The page of each trip on which the next record goes. */
  private readonly open = new Map<string, Page>();

  constructor(
    private readonly tx: Write,
    private readonly words: Words | undefined,
  ) {}

  /** What has become of records: in each trip once. */
  async take(all: Become[]): Promise<void> {
    const lines = this.tx.objectStore("records");
    const had = await Promise.all(all.map(({ trip, record }) => lines.get([trip, record])));
    for (const [i, one] of all.entries()) await this.takeOne(one, had[i]);
  }

  private async takeOne({ trip, record, is }: Become, had: Line | undefined): Promise<void> {
    const lines = this.tx.objectStore("records");
    if (!is && !had) return;
    const page = had ? await this.page(trip, had.page) : await this.openPage(trip);
    const next = put(page.lines, record, is && (this.words?.of(is) ?? ""));
    if (next !== page.lines) this.changed.add(page);
    page.lines = next;
    if (!is) await lines.delete([trip, record]);
    else
      await lines.put({
        ...{ trip, record, of: ofKind(is.kind, is.fields.has("asked")) },
        ...{ page: page.page, turn: (had?.turn ?? 0) + 1 },
        ...(!is.struck && { back: -timeOf(is) }),
      });
  }

  private async page(trip: string, page: number): Promise<Page> {
    const key = `${trip} ${page}`;
    const known = this.pages.get(key) ??
      (await this.tx.objectStore("words").get([trip, page])) ?? { trip, page, lines: "" };
    this.pages.set(key, known);
    return known;
  }

  private async openPage(trip: string): Promise<Page> {
    let page = this.open.get(trip);
    if (!page) {
      const last = await this.tx.objectStore("words").openKeyCursor(ofTrip(trip), "prev");
      page = await this.page(trip, (last?.key[1] as number | undefined) ?? 0);
    }
    if (isFullPage(page)) page = await this.page(trip, page.page + 1);
    this.open.set(trip, page);
    return page;
  }

  /** Writes the pages that were changed. */
  async end(): Promise<Page[]> {
    const pages = [...this.changed];
    for (const page of pages) await this.tx.objectStore("words").put(page);
    return pages;
  }
}

/** How far it is after something was written with these words: of what was of another form or version not all is. */
export function afterWriting(now: Projected, words: Words | undefined): Projected {
  const ours = words?.version ?? "";
  const { next } = now;
  const goesOn = next && next.form === form && next.words === ours;
  return {
    form: now.form === form ? form : 0,
    words: now.words === ours ? ours : null,
    ...(goesOn && { next }),
  };
}

/** A trip of no more entries is gone through at once. */
const mostAtOnce = 400;

/** After every id. */
const afterAll = "\uffff";

/**
 * The entries that are next to be gone through, by trip: so many at most, or all of a trip that is not long, and where
 * they end. They are of one trip, so that few pages are written.
 */
export async function nextEntries(
  tx: Write,
  after: [string, string] | undefined,
  count: number,
): Promise<{ entries: Stored[]; end: [string, string] | undefined; whole: boolean }> {
  const index = tx.objectStore("entries").index("trip");
  let at = await index.openCursor(after && IDBKeyRange.lowerBound(after[0]));
  if (after) {
    const [trip, id] = after;
    if (at && at.key === trip && at.primaryKey < id) at = await at.continuePrimaryKey(trip, id);
    if (at && at.key === trip && at.primaryKey === id) at = await at.continue();
  }
  const trip = at?.key;
  const isBegun = after?.[0] === trip;
  if (trip !== undefined && !isBegun && (await index.count(trip)) <= mostAtOnce)
    return { entries: await index.getAll(trip), end: [trip, afterAll], whole: true };
  const entries: Stored[] = [];
  for (; at && at.key === trip && entries.length < count; at = await at.continue()) entries.push(at.value);
  const last = entries.at(-1);
  return { entries, end: last && [last.trip, last.id], whole: false };
}

/** What a record of a trip says by all its entries there. */
export const foldIn = (trip: string, entries: Stored[]): Folded | undefined =>
  foldAll(entries.filter((entry) => entry.trip === trip))[0];
