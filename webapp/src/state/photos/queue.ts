/** The photos that this phone took and the server has not got: one after the other, past those that fail. */
import type { Book } from "../log/disk/book";
import { type PutPart, type Sent, sendPhoto } from "./send";

/** Answers after which the next photo fares no better. */
const forAll = ["aboard", "full", "often"];

/** Answers that time alone does not change. */
const final = ["enough", "size", "pixels", "type"];

/** The server had no note of it yet: over as soon as it asks for the photo. */
const early = "nothing";

/** Waits before one that failed is tried again, ms: at first, at most, and where only somebody else can change it. */
const first = 60_000;
const most = 3600_000;
const long = 24 * 3600_000;

export class Queue {
  /** Until when a photo is put off, how long it was, and why. */
  private readonly off = new Map<string, { until: number; wait: number; why: string }>();

  constructor(
    private readonly book: Pick<Book, "photo" | "standing" | "shipped" | "lacking">,
    private readonly put: PutPart,
    /** What is known of the photos has changed. */
    private readonly told: () => Promise<void>,
    private readonly now: () => number = Date.now,
  ) {}

  /** Puts none off any longer. */
  hurry(): void {
    this.off.clear();
  }

  /** The server is back in reach: puts off no longer what it may take by now. */
  back(): void {
    for (const [one, { why }] of this.off) if (!final.includes(why)) this.off.delete(one);
  }

  /** Sends what is due, and what the server asks for; true: it ended, or passed one, because the line broke. */
  async send(wanted: string[]): Promise<boolean> {
    // It was taken while an exchange was under way, and offered before its note was there.
    for (const one of wanted) if (this.off.get(one)?.why === early) this.off.delete(one);
    const asked = await this.book.lacking(wanted);
    if (asked.length > 0) await this.told();
    const own = (await this.book.standing()).photos.map(({ sha256 }) => sha256);
    const due = [...new Set([...own, ...asked])].filter(
      (one) => (this.off.get(one)?.until ?? 0) <= this.now(),
    );
    // Those that failed the fewest times first.
    due.sort((a, b) => (this.off.get(a)?.wait ?? 0) - (this.off.get(b)?.wait ?? 0));
    let lost = 0;
    let broke = false;
    for (const sha256 of due) {
      const sent = await this.one(sha256);
      lost = sent === "lost" ? lost + 1 : 0;
      broke ||= lost > 0;
      if (lost === 2) break;
      if (typeof sent === "object" && forAll.includes(sent.why)) break;
    }
    return broke;
  }

  /** lost: there was no answer. */
  private async one(sha256: string): Promise<Sent | "lost"> {
    const photo = await this.book.photo(sha256);
    if (!photo) return "there"; // somebody else has to bring it
    const sent = await sendPhoto(photo, this.put).catch((fault: Error): "lost" => {
      if (fault instanceof TypeError || fault.name === "AbortError") return "lost";
      throw fault;
    });
    if (sent === "there") this.off.delete(sha256);
    else this.putOff(sha256, sent === "lost" ? undefined : sent.why);
    if (sent === "lost") return sent;
    await this.book.shipped(sha256, sent === "there" ? undefined : sent.why);
    await this.told();
    return sent;
  }

  private putOff(sha256: string, why: string | undefined): void {
    if (why === undefined || forAll.includes(why)) return;
    const wait = final.includes(why) ? long : Math.min(2 * (this.off.get(sha256)?.wait ?? first / 2), most);
    this.off.set(sha256, { until: this.now() + wait, wait, why });
  }
}
