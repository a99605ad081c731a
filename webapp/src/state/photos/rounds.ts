/** When photos go: after the notes, one round at a time, and soon again where the line broke in one. */

/** Waits after a round in which the line broke, ms: at first, and at most. */
const first = 2000;
const longest = 300_000;

export class Rounds {
  /** What the server wants by the last that it said, if it said so while a round was under way. */
  private next: string[] | undefined;
  private running = false;
  private wait = first;
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** One round; true: the line broke in it. */
  constructor(private readonly send: (wanted: string[]) => Promise<boolean>) {}

  async begin(wanted: string[]): Promise<void> {
    clearTimeout(this.timer);
    this.next = wanted;
    if (this.running) return;
    this.running = true;
    let broke = false;
    let now = wanted;
    while (this.next) {
      now = this.next;
      this.next = undefined;
      broke = await this.send(now).catch(() => false);
    }
    this.running = false;
    if (broke) this.timer = setTimeout(() => this.begin(now), this.wait);
    this.wait = broke ? Math.min(2 * this.wait, longest) : first;
  }
}
