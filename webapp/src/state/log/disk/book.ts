/**
 * The log on this phone's disk. Every change is one transaction with strict durability, summaries of the
 * trips included, and has happened only when its promise is kept.
 */
import type { Connection } from "../../../base/store/connection";
import type { Draft, Refusal, Stored } from "../../entry/entry";
import { byRecord, inOrder } from "../../entry/fold";
import { uuid } from "../../entry/uuid";
import { type LogSchema, logDatabase, type MetaKey, type MetaOf, metaIn, type Photo } from "./db";
import { type Batch, batchIn, type Outcome, takeIn } from "./exchanging";
import type { Filed } from "./file";
import { type Moved, moveIn } from "./moving";
import { holding, sending, without } from "./outbox";
import {
  foldIn,
  form,
  type Line,
  latestOf,
  nextEntries,
  type Page,
  type Projected,
  Projecting,
  ofTrip as pagesOfTrip,
  type Words,
} from "./projections";
import { lackingIn, letGo, putPhoto, ship } from "./shipping";
import { counted, type Standing, standingIn, unsentIn } from "./standing";
import type { Summary } from "./summary";
import { type Enter, enterIn, noteProjected, stores, unprojected, type Write } from "./writing";

/** What else a new entry brings about, in the same transaction. */
export interface Along {
  photos?: { full: Photo; thumb: Photo }[];
  /** Refused entries that another one says again. */
  replaced?: { entry: string; by: string }[];
}

/** What this page has put: entries, and their trips as these are by it. */
export interface Put {
  entries: Stored[];
  trips: ReadonlyMap<string, Summary>;
}

export class Book {
  private readonly database: Connection<LogSchema>;
  /** Goes up with everything that this page writes, or tries to. */
  writes = 0;
  private put: Stored[] = [];
  private trips = new Map<string, Summary>();
  private moved = false;
  /** How records are put into words; without, none are kept. */
  words: Words | undefined;
  /** Told when the disk had room for entries alone, and not for what is kept beside them. */
  fellBehind: () => void = () => undefined;
  /** Pages of words that were read, by trip: as they are by now, but for what other tabs write. */
  private readonly pages = new Map<string, { of: Map<number, Page>; read: Promise<void> }>();

  constructor(name = "wirewake-log") {
    this.database = logDatabase(name);
  }

  /** Writes new entries, each with its count; those already there are left as they are. */
  append(drafts: Draft[], { photos = [], replaced = [] }: Along = {}): Promise<void> {
    return this.write(async (tx, enter) => {
      let n = await metaIn(tx, "n", 0);
      const changed: Stored[] = [];
      for (const draft of drafts) {
        if (await tx.objectStore("entries").get(draft.id)) continue;
        n++;
        changed.push(sending({ ...draft, n, own: true }));
      }
      for (const { full, thumb } of photos) {
        await putPhoto(tx, full, thumb);
        const trip = drafts[0]?.trip;
        if (trip) await tx.objectStore("shipments").put({ sha256: full.sha256, trip, out: 1 });
      }
      for (const { entry, by } of replaced) {
        const old = await tx.objectStore("entries").get(entry);
        if (old) changed.push(without({ ...old, replaced: by }, "refused", "out", "kept"));
      }
      await tx.objectStore("meta").put(n, "n");
      await enter(changed);
    });
  }

  /**
   * Takes over entries from a file, to be sent; those already there are left as they are. Returns how many records they
   * are of. None of them is this phone's own, whatever the file says; a writer who is not known is called nobody.
   */
  adopt(entries: Filed[], nobody: string): Promise<number> {
    return this.write(async (tx, enter) => {
      const fresh: Stored[] = [];
      for (const entry of entries) {
        if (await tx.objectStore("entries").get(entry.id)) continue;
        const { by = uuid(), byName = nobody, mark } = entry;
        fresh.push(sending({ ...holding(entry), by, byName, ...(mark && { mark }) }));
      }
      await enter(fresh);
      return byRecord(fresh).size;
    });
  }

  /** What this page has put since this was last asked; undefined: a page that shows any of it reads all of it again. */
  justPut(): Put | undefined {
    const { put: entries, trips, moved } = this;
    [this.put, this.trips, this.moved] = [[], new Map(), false];
    return moved ? undefined : { entries, trips };
  }

  /** Those of no trip, which cannot be read, are under "". */
  summaries(): Promise<Summary[]> {
    return this.database.using((db) => db.getAll("trips"));
  }

  /** Of a trip, or of several that were made one. */
  async entriesOf(trips: string | string[]): Promise<Stored[]> {
    const each = await this.database.using((db) => {
      const index = db.transaction("entries").store.index("trip");
      return Promise.all([trips].flat().map((trip) => index.getAll(trip)));
    });
    return each.flat();
  }

  /** Of all trips and kinds, by the place that the log has for them. */
  everyEntry(): Promise<Stored[]> {
    return this.database.using(async (db) => (await db.getAll("entries")).sort(inOrder));
  }

  /** By their SHA-256. */
  photoNames(): Promise<string[]> {
    return this.database.using((db) => db.getAllKeys("photos"));
  }

  /** Of all trips. */
  async entriesOfKinds(kinds: string[]): Promise<Stored[]> {
    const each = await this.database.using((db) => {
      const index = db.transaction("entries").store.index("kind");
      return Promise.all(kinds.map((kind) => index.getAll(kind)));
    });
    return each.flat();
  }

  /**
   * The latest records of these (ofKind) that are not struck out, so many, or all since then, the latest first, and whether
   * there are more; undefined as long as that is not known of all.
   */
  latest(
    of: string[],
    wanted: { count: number } | { from: number },
  ): Promise<{ lines: Line[]; more: boolean } | undefined> {
    const { count, from } = { count: undefined, from: undefined, ...wanted };
    return this.database.using(async (db) => {
      const tx = db.transaction(["records", "meta"]);
      const index = tx.objectStore("records").index("latest");
      const [projected, ...each] = await Promise.all([
        metaIn(tx, "projected", unprojected),
        ...of.map((one) => index.getAll(latestOf(one, from), count && count + 1)),
      ]);
      if (projected.form !== form) return undefined;
      const all = each.flat().sort((a, b) => (a.back ?? 0) - (b.back ?? 0));
      return { lines: all.slice(0, count), more: all.length > (count ?? all.length) };
    });
  }

  /** All entries of each of these records. */
  entriesOfRecords(records: string[]): Promise<Stored[][]> {
    return this.database.using((db) => {
      const index = db.transaction("entries").store.index("record");
      return Promise.all(records.map((record) => index.getAll(record)));
    });
  }

  /** The words of all records of these trips, on pages; what was not read before is read in one transaction. */
  async wordsOf(trips: string[]): Promise<Page[]> {
    const into = new Map(
      trips.flatMap((trip) => (this.pages.has(trip) ? [] : [[trip, new Map<number, Page>()]])),
    );
    if (into.size > 0) {
      const read = this.readWords(into);
      for (const [trip, of] of into) this.pages.set(trip, { of, read });
    }
    const pages = trips.flatMap((trip) => this.pages.get(trip) ?? []);
    await Promise.all(pages.map(({ read }) => read));
    return pages.flatMap(({ of }) => [...of.values()]);
  }

  private async readWords(into: ReadonlyMap<string, Map<number, Page>>): Promise<void> {
    try {
      const each = await this.database.using((db) => {
        const { store } = db.transaction("words");
        return Promise.all([...into.keys()].map((trip) => store.getAll(pagesOfTrip(trip))));
      });
      // What was put meanwhile is newer than what was read.
      for (const page of each.flat()) {
        const of = into.get(page.trip);
        if (!of?.has(page.page)) of?.set(page.page, page);
      }
    } catch (fault) {
      for (const [trip, of] of into) if (this.pages.get(trip)?.of === of) this.pages.delete(trip);
      throw fault;
    }
  }

  /** Another tab may have written: what was read is read again when it is asked for. */
  forgetWords(): void {
    this.pages.clear();
  }

  /** Whether all of the log is kept by records, and in the words that are in use. */
  async isProjected(): Promise<boolean> {
    return this.isMade((await this.meta("projected")) ?? unprojected);
  }

  private isMade({ form: of, words }: Projected): boolean {
    return of === form && words === (this.words?.version ?? "");
  }

  /** Makes what is kept beside so many entries anew, where it is of an older form; whether all of it is made by now. */
  remake(count: number): Promise<boolean> {
    return this.database.using(async (db) => {
      const tx = db.transaction(stores, "readwrite");
      const meta = tx.objectStore("meta");
      const now = await metaIn(tx, "projected", unprojected);
      if (this.isMade(now)) return true;
      const to = { form, words: this.words?.version ?? "" };
      const goesOn = now.next?.form === to.form && now.next.words === to.words;
      if (now.form !== form && !goesOn)
        await Promise.all([tx.objectStore("records").clear(), tx.objectStore("words").clear()]);
      const { entries, end, whole } = await nextEntries(tx, goesOn ? now.next?.after : undefined, count);
      const projecting = new Projecting(tx, this.words);
      const trip = entries[0]?.trip ?? "";
      const of = byRecord(entries);
      const index = tx.objectStore("entries").index("record");
      // Of a part of a trip, a record may have others besides.
      const all = whole ? [...of.values()] : await Promise.all([...of.keys()].map((id) => index.getAll(id)));
      await projecting.take(
        [...of.keys()].map((record, i) => ({ trip, record, is: foldIn(trip, all[i] ?? []) })),
      );
      const pages = await projecting.end();
      const part = {
        form: now.form === form ? form : 0,
        words: null,
        ...(end && { next: { ...to, after: end } }),
      };
      await meta.put(end ? part : to, "projected");
      await tx.done;
      this.keepPages(pages);
      return !end;
    });
  }

  private keepPages(pages: Page[]): void {
    for (const page of pages) this.pages.get(page.trip)?.of.set(page.page, page);
  }

  /** Where the trips are known as they are by now, they are not read again. */
  standing(trips?: Summary[]): Promise<Standing> {
    return this.database.using((db) => standingIn(db.transaction(counted), trips));
  }

  /** A refused entry is kept on this phone only, or stands as refused again. */
  settle(id: string, how: "kept" | "refused"): Promise<void> {
    return this.write(async (tx, enter) => {
      const entry = await tx.objectStore("entries").get(id);
      const why = entry?.refused ?? entry?.kept;
      if (entry && why) await enter([{ ...without(entry, "refused", "kept"), [how]: why }]);
    });
  }

  /** Takes entries out of the outbox that no server would take: they stay, with the reason. */
  holdBack(ids: string[], refused: Refusal): Promise<void> {
    return this.write(async (tx, enter) => {
      const all = await Promise.all(ids.map((id) => tx.objectStore("entries").get(id)));
      await enter(all.flatMap((entry) => (entry ? [without({ ...entry, refused }, "out")] : [])));
    });
  }

  /** All that the server has not taken, of all trips. */
  unsent(): Promise<Stored[]> {
    return this.database.using((db) => unsentIn(db.transaction(counted)));
  }

  /**
   * Says anew in another trip what was noted in one that the server takes nothing of. What it said before is put away,
   * still legible, and so is what else is named, of the trip itself; its photos go along.
   */
  move(from: string, to: string, records: Moved[], away: string[] = []): Promise<void> {
    return this.write((tx, enter) => moveIn(tx, enter, from, to, records, away));
  }

  /** The next of the outbox: at most so many entries, and so many bytes of JSON. */
  batch(most: number, mostBytes: number): Promise<Batch> {
    return this.database.using((db) => batchIn(db.transaction(counted), most, mostBytes));
  }

  /**
   * Takes in what the server answered to a batch: numbers, refusals, what others wrote, and the cursor. False:
   * the cursor has moved since the batch was read, so the answer is out of date, and nothing is done.
   */
  take(sent: Batch, answer: Outcome): Promise<boolean> {
    return this.write((tx, enter) => takeIn(tx, enter, sent, answer));
  }

  async meta<K extends MetaKey>(key: K): Promise<MetaOf<K> | undefined> {
    return (await this.database.using((db) => db.get("meta", key))) as MetaOf<K> | undefined;
  }

  setMeta<K extends "you" | "current" | "key" | "asking" | "coming">(
    key: K,
    value: MetaOf<K>,
  ): Promise<void> {
    return this.write(async (tx) => {
      await tx.objectStore("meta").put(value, key);
    });
  }

  photo(sha256: string): Promise<Photo | undefined> {
    return this.database.using((db) => db.get("photos", sha256));
  }

  thumb(sha256: string): Promise<Photo | undefined> {
    return this.database.using((db) => db.get("thumbs", sha256));
  }

  /** Notes that a photo of this phone is on the server, or why not. */
  shipped(sha256: string, why?: string): Promise<void> {
    return this.write((tx) => ship(tx, sha256, why === undefined ? {} : { out: 1, why }));
  }

  /** Photos that the server says it lacks are to be sent, whatever was known of them. Gives those this phone has. */
  lacking(wanted: string[]): Promise<string[]> {
    return this.write((tx) => lackingIn(tx, wanted));
  }

  /** Keeps a photo that came from the server. */
  keepPhoto(full: Photo, thumb: Photo): Promise<void> {
    return this.write((tx) => putPhoto(tx, { ...full, fetched: true }, thumb));
  }

  /** Keeps a photo from a file, maybe the only one there is: it is to be sent like those taken with this phone. */
  bringPhoto(full: Photo, thumb: Photo, trip: string | undefined): Promise<void> {
    return this.write(async (tx) => {
      await putPhoto(tx, full, thumb);
      if (trip) await tx.objectStore("shipments").put({ sha256: full.sha256, trip, out: 1 });
    });
  }

  /** Lets go of photos that came from the server, but for their small pictures: room for notes. False: there were none. */
  makeRoom(): Promise<boolean> {
    return this.write(letGo);
  }

  /** Closes the connection, as the browser may do at any time. */
  close(): Promise<void> {
    return this.database.close();
  }

  /** What is kept beside the entries is made anew later where the disk has room for these alone. */
  private async write<T>(work: (tx: Write, enter: Enter) => Promise<T>): Promise<T> {
    this.writes++;
    try {
      return await this.writeAll(work, true);
    } catch (fault) {
      if ((fault as Error).name !== "QuotaExceededError") throw fault;
      const result = await this.writeAll(work, false);
      this.fellBehind();
      return result;
    }
  }

  private writeAll<T>(work: (tx: Write, enter: Enter) => Promise<T>, projects: boolean): Promise<T> {
    return this.database.using(async (db) => {
      const tx = db.transaction(stores, "readwrite", { durability: "strict" });
      const put: Stored[] = [];
      const trips = new Map<string, Summary>();
      const pages: Page[] = [];
      let moved = false;
      const entering: Enter = async (changed) => {
        put.push(...changed);
        const projecting = projects ? new Projecting(tx, this.words) : undefined;
        moved = await enterIn(tx, changed, trips, projecting);
        pages.push(...((await projecting?.end()) ?? []));
        await noteProjected(tx, projects, this.words);
      };
      // A failure in the middle takes back all of it.
      const [result] = await Promise.all([
        work(tx, entering).catch((fault) => {
          try {
            tx.abort();
          } catch {
            // The browser has done so itself.
          }
          throw fault;
        }),
        tx.done,
      ]);
      this.put = [...this.put, ...put];
      for (const [trip, summary] of trips) this.trips.set(trip, summary);
      this.moved ||= moved;
      this.keepPages(pages);
      return result;
    });
  }
}
