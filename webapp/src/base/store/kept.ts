/**
 * A signal that is kept on the phone: every change is written at once, the newest last. Trouble with the
 * storage never stops the app; it is told, and writing goes on until it succeeds.
 */
import { type Signal, signal } from "@preact/signals";
import { clearAside, putAside } from "./aside";
import { dropAtOnce, keepAtOnce, leftAtOnce } from "./at-once";
import { fetchKept, writeKept } from "./db";
import type { Shape } from "./shape";

/** What went wrong with storage, to be told; name is the document's. */
export type StorageTrouble =
  | { kind: "unreadable"; name: string }
  | { kind: "unopened"; name: string }
  | { kind: "unsaved"; name: string; full: boolean };

export const storageTroubles = signal<StorageTrouble[]>([]);

export function noted(trouble: StorageTrouble): void {
  storageTroubles.value = storageTroubles.value.filter((t) => t !== trouble);
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
  { rewrite(): Promise<void>; storing(): unknown; take(raw: unknown): (() => void) | undefined }
>();

/** The documents of these names, each as it is stored. */
export const documentsNow = (names: readonly string[]): { [name: string]: unknown } =>
  Object.fromEntries(
    names.flatMap((name) => (documents.has(name) ? [[name, documents.get(name)?.storing()]] : [])),
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
  const gone = await clearAside(name);
  over({ kind: "unreadable", name });
  return async () => {
    await putAside(...gone);
    tell({ kind: "unreadable", name });
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
  /** Set while what is stored has not been read: then it must not be written over unseen. */
  private unread = false;
  /** Its name where it is kept at once. */
  private readonly atOnce: string;

  constructor(
    readonly name: string,
    private readonly shape: Shape<T>,
    initial: T,
    /** As it is stored, where that is to tell more than the value. */
    private readonly stored: (value: T) => unknown = (value) => value,
  ) {
    this.signal = signal(initial);
    this.atOnce = `kept-${name}`;
    documents.set(name, this);
    // The app may be open twice; older browsers cannot tell one of the other.
    if (typeof BroadcastChannel === "function") {
      this.others = new BroadcastChannel(`wirewake ${name}`);
      this.others.onmessage = () => {
        if (!this.dirty && !this.writing) this.read();
      };
    }
  }

  get value(): T {
    return this.signal.value;
  }

  /** Shows the value at once and has it written. */
  set(value: T): void {
    this.signal.value = value;
    keepAtOnce(this.atOnce, this.stored(value));
    this.dirty = true;
    this.flush();
  }

  storing(): unknown {
    return this.stored(this.signal.peek());
  }

  take(raw: unknown): (() => void) | undefined {
    let whole = true;
    try {
      const value = this.shape(raw, () => {
        whole = false;
      });
      if (!whole) return undefined;
      const before = this.signal.peek();
      this.set(value);
      return () => this.set(before);
    } catch {
      return undefined;
    }
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
   * What a page that went away had not written yet, else what is stored. False: nothing usable was there, and the value
   * is what it was.
   */
  async load(): Promise<boolean> {
    const left = leftAtOnce(this.atOnce);
    if (left === undefined) return this.read();
    let whole = true;
    try {
      const value = this.shape(left, () => {
        whole = false;
      });
      if (whole) this.set(value);
    } catch {
      whole = false;
    }
    if (whole) return true;
    // Of another version of the app: what is on disk is what can be read.
    dropAtOnce(this.atOnce);
    return this.read();
  }

  private async read(): Promise<boolean> {
    let raw: unknown;
    try {
      raw = await inTime(openWithin, fetchKept(this.name));
    } catch {
      this.unread = true;
      tell({ kind: "unopened", name: this.name });
      return false;
    }
    if (raw === undefined) return false;
    try {
      const spoilt: unknown[] = [];
      this.signal.value = this.shape(raw, (part) => spoilt.push(part));
      if (spoilt.length > 0) await this.setAside(spoilt, "parts of it");
      return true;
    } catch (fault) {
      await this.setAside(raw, String(fault));
      return false;
    }
  }

  private async setAside(raw: unknown, why: string): Promise<void> {
    tell({ kind: "unreadable", name: this.name });
    await putAside({ name: this.name, raw, why }).catch(() => undefined);
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
      this.dirty = false;
      try {
        await this.saveUnread();
        await writeKept(this.name, this.stored(this.signal.peek()));
        if (!this.dirty) dropAtOnce(this.atOnce);
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

  private async saveUnread(): Promise<void> {
    if (!this.unread) return;
    const raw = await fetchKept(this.name);
    if (raw !== undefined) await putAside({ name: this.name, raw, why: "could not be read at start" });
    this.unread = false;
  }
}

/** Some browsers leave a request to open the database unanswered for ever. */
export function inTime<T>(ms: number, promise: Promise<T>): Promise<T> {
  return new Promise((done, fail) => {
    const timer = setTimeout(() => fail(new Error("timed out")), ms);
    promise.then(done, fail).finally(() => clearTimeout(timer));
  });
}
