/**
 * Keeps the exchange going: runs it when there is reason to, one run at a time, and after a failure again and
 * again with growing waits. It never gives up.
 */
import { signal } from "@preact/signals";
import type { Ended, Pace, Trouble } from "./run";
import { mostEntries } from "./wire";

export interface Status {
  working: boolean;
  /** Why the last run broke off. */
  trouble?: Trouble;
  /** When the last run came to its end, ms since 1970. */
  last?: number;
  /** How far this phone's clock is ahead of the server's, ms. */
  ahead?: number;
}

/** Waits, ms: before the first repetition, at most, and after a run that went well. */
const first = 2000;
const longest = 300_000;
const resting = 60_000;
/** The same while the server says by itself when there is more. */
const hearing = 300_000;
const patience = 60_000;
const fewest = 10;

/** Only a person, or a change of place, can end these. */
const final: (Trouble | undefined)[] = ["stranger", "version"];

export class Keeper {
  readonly status = signal<Status>({ working: false });
  private timer: ReturnType<typeof setTimeout> | undefined;
  private again = false;
  private failures = 0;
  private most = mostEntries;

  constructor(
    /** One run; undefined: another tab is at it. */
    private readonly runOnce: (pace: Pace) => Promise<Ended | undefined>,
    private readonly random: () => number = Math.random,
    private readonly hears: () => boolean = () => false,
  ) {}

  /** There is reason to exchange now. */
  wake(): void {
    clearTimeout(this.timer);
    if (this.status.value.working) this.again = true;
    else this.work();
  }

  private async work(): Promise<void> {
    this.again = false;
    this.status.value = { ...this.status.value, working: true };
    const ended = await this.runOnce({ most: this.most, patience }).catch(
      (): Ended => ({ trouble: "phone" }),
    );
    if (!ended) this.status.value = { ...this.status.value, working: false };
    else this.note(ended);
    if (this.again) return this.wake();
    const wait = this.waitAfter(ended ?? {});
    if (wait !== undefined) this.timer = setTimeout(() => this.wake(), wait);
  }

  private note({ trouble, answer }: Ended): void {
    const { last, ahead } = this.status.value;
    this.failures = trouble ? this.failures + 1 : 0;
    if (trouble === "slow") this.most = Math.max(fewest, Math.floor(this.most / 2));
    if (!trouble) this.most = Math.min(mostEntries, 2 * this.most);
    const now = Date.now();
    this.status.value = {
      working: false,
      ...(trouble && { trouble }),
      ...(!trouble ? { last: now } : last !== undefined && { last }),
      ...(answer ? { ahead: now - answer.now } : ahead !== undefined && { ahead }),
    };
  }

  private waitAfter({ trouble, after = 0 }: Ended): number | undefined {
    if (!trouble) return this.hears() ? hearing : resting;
    if (final.includes(trouble)) return undefined;
    const most = Math.min(first * 2 ** (this.failures - 1), longest);
    // Phones that failed together do not come back together.
    return Math.max(after, most * (0.5 + this.random() / 2));
  }
}
