/**
 * A signal that is kept on the phone: every change is written at once, the newest last. Trouble with the
 * storage never stops the app; it is told, and writing goes on until it succeeds. Nothing is written before it is
 * known what is stored: what comes in late takes the place of what stood in for it.
 */
import { type Signal, signal } from "@preact/signals";
import { clearAside, isEarly, putAside, tooEarly } from "./aside";
import { dropAtOnce, keepAtOnce, leftAtOnce } from "./at-once";
import { fetchKept, writeKept } from "./db";
import { toJson } from "./json";
import type { Shape } from "./shape";

/** What went wrong with storage, to be told; name is the document's. Early: it was changed before it had been read. */
export type StorageTrouble =
  | { kind: "unreadable"; name: string }
  | { kind: "early"; name: string }
  | { kind: "unopened"; name: string }
  | { kind: "unsaved"; name: string; full: boolean };

export const storageTroubles = signal<StorageTrouble[]>([]);

/** Names of the documents that have a trouble of this kind. */
export const troubled = (kind: StorageTrouble["kind"]): string[] =>
  storageTroubles.value.filter((t) => t.kind === kind).map(({ name }) => name);

/** Troubles of this kind have been read of. */
export function noted(kind: StorageTrouble["kind"]): void {
  storageTroubles.value = storageTroubles.value.filter((t) => t.kind !== kind);
}

/** Tells of a trouble, in the place of an earlier one of its kind. */
export const tell = (trouble: StorageTrouble) => {
  storageTroubles.value = [...clear(trouble), trouble];
};

const clear = (of: { kind: string; name: string }) =>
  storageTroubles.value.filter((t) => t.kind !== of.kind || t.name !== of.name);

/** The trouble is over. */
export function over(of: { kind: StorageTrouble["kind"]; name: string }): void {
  storageTroubles.value = clear(of);
}

export const openWithin = 4000;
export const firstRetry = 1000;
export const longestRetry = 30_000;

/** By name. */
const documents = new Map<
  string,
  {
    rewrite(): Promise<void>;
    counts(): boolean;
    storing(): unknown;
    take(raw: unknown): (() => void) | undefined;
  }
>();

/** The documents of these names, each as it is stored; without those that neither were read nor are somebody's. */
export const documentsNow = (names: readonly string[]): { [name: string]: unknown } =>
  Object.fromEntries(
    names.flatMap((name) => {
      const document = documents.get(name);
      return document?.counts() ? [[name, document.storing()]] : [];
    }),
  );

/** Puts what was saved elsewhere in the place of a document; the way back, or undefined where it cannot be read as a whole. */
export const takeDocument = (name: string, raw: unknown): (() => void) | undefined =>
  documents.get(name)?.take(raw);

/**
 * Lets go of what was put aside of a document; what is shown is written over what is stored, so that nothing
 * unreadable is found there again. Returns the way to have it back aside.
 */
export async function letGo(name: string): Promise<() => Promise<void>> {
  await documents.get(name)?.rewrite();
  const kind = isEarly(name) ? "early" : "unreadable";
  const gone = await clearAside(name);
  over({ kind: "early", name });
  over({ kind: "unreadable", name });
  return async () => {
    await putAside(...gone);
    tell({ kind, name });
  };
}

export class Kept<T> {
  readonly signal: Signal<T>;
  private dirty = false;
  private writing: Promise<void> | undefined;
  private retry: ReturnType<typeof setTimeout> | undefined;
  private wait = firstRetry;
  /** Other pages that show the same document, told of every change that is on disk. */
  private readonly others: BroadcastChannel | undefined;
  private first: Promise<boolean> | undefined;
  /**
   * Whether what is stored was read, or is known not to be there. Until then it must not be written over, and what is
   * shown stands in for it.
   */
  readonly found = signal(false);
  private finding: Promise<boolean> | undefined;
  /** What the app itself put there while nothing was found. */
  private filled: { value: T } | undefined;
  /** Its names where it is kept at once: what follows from what was stored, and what was changed before that was read. */
  private readonly atOnce: string;
  private readonly atOnceEarly: string;

  constructor(
    readonly name: string,
    private readonly shape: Shape<T>,
    initial: T,
    /** As it is stored, where that is to tell more than the value. */
    private readonly stored: (value: T) => unknown = (value) => value,
  ) {
    this.signal = signal(initial);
    this.atOnce = `kept-${name}`;
    this.atOnceEarly = `early-${name}`;
    documents.set(name, this);
    // The app may be open twice; older browsers cannot tell one of the other.
    if (typeof BroadcastChannel === "function") {
      this.others = new BroadcastChannel(`wirewake ${name}`);
      this.others.onmessage = async () => {
        // What is being read may be of before.
        await this.finding?.catch(() => undefined);
        if (this.found.peek() && !this.dirty && !this.writing) this.lookUp();
      };
    }
  }

  get value(): T {
    return this.signal.value;
  }

  /** Shows the value at once and has it written. */
  set(value: T): void {
    this.signal.value = value;
    keepAtOnce(this.found.peek() ? this.atOnce : this.atOnceEarly, this.stored(value));
    this.dirty = true;
    this.flush();
  }

  /** Shows what the app makes by itself. It is written only where nothing is stored, else that takes its place. */
  fill(value: T): void {
    if (this.found.peek() || this.dirty) this.set(value);
    else {
      this.signal.value = value;
      this.filled = { value };
    }
  }

  /** Whether it was read, or somebody has changed it. */
  counts(): boolean {
    return this.found.peek() || this.dirty;
  }

  storing(): unknown {
    return this.stored(this.signal.peek());
  }

  take(raw: unknown): (() => void) | undefined {
    const read = this.whole(raw);
    if (!read) return undefined;
    const before = this.signal.peek();
    this.set(read.value);
    return () => this.set(before);
  }

  async rewrite(): Promise<void> {
    this.set(this.value);
    await this.settled();
  }

  /** It was read, by whoever needed it first. */
  loaded(): Promise<boolean> {
    this.first ??= this.load();
    return this.first;
  }

  /**
   * What a page that went away had not written yet, else what is stored. False: nothing usable was there, or it is not
   * read yet, and the value is what it was. An answer that comes late is taken in all the same.
   */
  async load(): Promise<boolean> {
    return this.resume() || this.lookUp();
  }

  private async lookUp(): Promise<boolean> {
    let usable: boolean | undefined;
    const looking = this.find().then((found) => {
      usable = found;
      return found;
    });
    try {
      return await inTime(openWithin, looking);
    } catch {
      // It came in that very moment; or what was changed since follows from what was read before.
      if (usable !== undefined || (this.found.peek() && (this.dirty || this.writing))) return usable ?? true;
      this.found.value = false;
      tell({ kind: "unopened", name: this.name });
      this.keepFinding();
      return false;
    }
  }

  /** Goes on where a page that went away was. True: from what it had read. */
  private resume(): boolean {
    const left = leftAtOnce(this.atOnce);
    if (left !== undefined) {
      const read = this.whole(left);
      if (read) {
        this.found.value = true;
        this.set(read.value);
        return true;
      }
      // Of another version of the app: what is on disk is what can be read.
      dropAtOnce(this.atOnce);
    }
    const early = leftAtOnce(this.atOnceEarly);
    if (early === undefined || this.dirty) return false;
    const read = this.whole(early);
    if (read) {
      this.signal.value = read.value;
      this.dirty = true;
    } else this.setEarlyAside(early).catch(() => undefined);
    return false;
  }

  private whole(raw: unknown): { value: T } | undefined {
    let whole = true;
    try {
      const value = this.shape(raw, () => {
        whole = false;
      });
      return whole ? { value } : undefined;
    } catch {
      return undefined;
    }
  }

  private find(): Promise<boolean> {
    this.finding ??= this.read().finally(() => {
      this.finding = undefined;
    });
    return this.finding;
  }

  private async keepFinding(): Promise<void> {
    for (let wait = firstRetry; !this.found.peek(); wait = Math.min(2 * wait, longestRetry)) {
      try {
        await this.find();
      } catch {
        await new Promise((done) => setTimeout(done, wait));
      }
    }
  }

  /** Takes in what is stored. Fails while that cannot be read, or not be put aside where it makes no sense. */
  private async read(): Promise<boolean> {
    const raw = await fetchKept(this.name);
    // Of what was read before, what is on its way to the disk is newer.
    if (this.found.peek() && (this.dirty || this.writing)) return true;
    const spoilt: unknown[] = [];
    let usable: { value: T } | undefined;
    try {
      if (raw !== undefined) usable = { value: this.shape(raw, (part) => spoilt.push(part)) };
    } catch (fault) {
      await this.setAside(raw, String(fault));
    }
    if (usable && !this.dirty) this.signal.value = usable.value;
    if (spoilt.length > 0) await this.setAside(spoilt, "parts of it");
    if (usable) {
      while (this.dirty) await this.giveWay(raw);
      this.signal.value = usable.value;
      dropAtOnce(this.atOnceEarly);
      over({ kind: "unsaved", name: this.name });
    } else if (this.filled && this.filled.value === this.signal.peek()) this.dirty = true;
    this.filled = undefined;
    this.found.value = true;
    over({ kind: "unopened", name: this.name });
    if (this.dirty) this.flush();
    return usable !== undefined;
  }

  /** What was changed before it was known what is stored is kept beside that. */
  private async giveWay(raw: unknown): Promise<void> {
    const early = this.storing();
    this.dirty = false;
    if (toJson(early) === toJson(raw)) return;
    try {
      await this.setEarlyAside(early);
    } catch (fault) {
      this.dirty = true;
      throw fault;
    }
  }

  private async setEarlyAside(raw: unknown): Promise<void> {
    await putAside({ name: this.name, raw, why: tooEarly });
    dropAtOnce(this.atOnceEarly);
    tell({ kind: "early", name: this.name });
  }

  private async setAside(raw: unknown, why: string): Promise<void> {
    tell({ kind: "unreadable", name: this.name });
    await putAside({ name: this.name, raw, why });
  }

  /** Resolves when every change so far is on disk, or has failed to get there. */
  async settled(): Promise<void> {
    while (this.writing) await this.writing;
  }

  private flush(): void {
    if (this.writing) return;
    clearTimeout(this.retry);
    this.retry = undefined;
    this.writing = this.write().finally(() => {
      this.writing = undefined;
      if (this.dirty && !this.retry) this.flush();
    });
  }

  private async write(): Promise<void> {
    while (this.dirty) {
      try {
        if (!this.found.peek()) await inTime(openWithin, this.find());
        // What was stored may have taken its place.
        if (!this.dirty) return;
        this.dirty = false;
        await writeKept(this.name, this.storing());
        if (!this.dirty) {
          dropAtOnce(this.atOnce);
          dropAtOnce(this.atOnceEarly);
        }
        this.wait = firstRetry;
        over({ kind: "unsaved", name: this.name });
        this.others?.postMessage("changed");
      } catch (fault) {
        this.dirty = true;
        tell({ kind: "unsaved", name: this.name, full: (fault as Error).name === "QuotaExceededError" });
        this.retry = setTimeout(() => this.flush(), this.wait);
        this.wait = Math.min(2 * this.wait, longestRetry);
        return;
      }
    }
  }
}

/** Some browsers leave a request to open the database unanswered for ever. */
export function inTime<T>(ms: number, promise: Promise<T>): Promise<T> {
  return new Promise((done, fail) => {
    const timer = setTimeout(() => fail(new Error("timed out")), ms);
    promise.then(done, fail).finally(() => clearTimeout(timer));
  });
}
