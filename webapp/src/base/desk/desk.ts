/**
 * The screen's side of the desk: asks calculations by name, one at a time, in order. It starts the worker,
 * and starts another when one has died or answers nothing.
 */
import { signal } from "@preact/signals";
import type { FromDesk, ToDesk } from "./messages";
import type { CalculationName, Calculations } from "./types/calculations.gen";
import type { Problem } from "./types/codec.gen";

type Request<N extends CalculationName> = Calculations[N]["request"];
type Answer<N extends CalculationName> = Calculations[N]["answer"];

/** The part of a Worker that the desk uses. */
export interface DeskWorker {
  postMessage(message: ToDesk): void;
  terminate(): void;
  onmessage: ((event: { data: FromDesk }) => void) | null;
  onerror: ((event: { message?: string }) => void) | null;
}

/** resting: not started. restarted: after a failure, until it has gone on well for a while. stopped: gave up. */
export type DeskState = "resting" | "starting" | "ready" | "restarted" | "stopped";

/** The request was understood and refused: each problem names its field. */
export class Refused extends Error {
  constructor(readonly problems: Problem[]) {
    super(problems.map((p) => `${p.field} ${p.text}`).join("; "));
  }
}

/** The worker died or hung over this request. */
export class Died extends Error {}

interface Waiting {
  name: string;
  request: string;
  newest: boolean;
  done: (reply: string | undefined) => void;
  fail: (reason: Error) => void;
}

export interface Patience {
  /** How long the worker may take to start, and to answer, in ms. */
  start: number;
  answer: number;
  /** Failures in a row after which it is not started again by itself. */
  failures: number;
  /** How long it must go on after its first answer to be well again, in ms: it may die at one request and answer the next. */
  well: number;
}

export class Desk {
  readonly state = signal<DeskState>("resting");
  /** Counts the times a new worker took the place of one that failed: what was asked may be asked again. */
  readonly restarts = signal(0);
  private worker: DeskWorker | undefined;
  private up = false;
  private readonly queue: Waiting[] = [];
  private asked: Waiting | undefined;
  private id = 0;
  private failures = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private recovering: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly hire: () => DeskWorker,
    private readonly patience: Patience = { start: 60_000, answer: 10_000, failures: 3, well: 5000 },
  ) {}

  /** Asks, and waits for the answer. Rejects with Refused or Died. */
  async ask<N extends CalculationName>(name: N, request: Request<N>): Promise<Answer<N>> {
    return read<N>((await this.enqueue(name, request, false)) as string);
  }

  /** As ask, but a newer request of the same name takes the place of one still waiting: undefined for that one. */
  async newest<N extends CalculationName>(name: N, request: Request<N>): Promise<Answer<N> | undefined> {
    const reply = await this.enqueue(name, request, true);
    return reply === undefined ? undefined : read<N>(reply);
  }

  /** Starts the worker ahead of the first request, or again after it gave up. */
  start(): void {
    this.failures = 0;
    if (this.worker) return;
    if (this.state.value === "stopped") this.restarts.value++;
    this.begin();
  }

  private enqueue(name: string, request: unknown, newest: boolean): Promise<string | undefined> {
    return new Promise((done, fail) => {
      const waiting: Waiting = { name, request: JSON.stringify(request), newest, done, fail };
      const older = newest ? this.queue.findIndex((w) => w.newest && w.name === name) : -1;
      if (older >= 0) {
        this.queue[older]?.done(undefined);
        this.queue[older] = waiting;
      } else this.queue.push(waiting);
      if (this.state.value === "stopped") return this.abandon("the calculator has stopped");
      if (!this.worker) this.begin();
      this.next();
    });
  }

  private begin(): void {
    if (this.state.value !== "restarted") this.state.value = "starting";
    const worker = this.hire();
    this.worker = worker;
    this.up = false;
    worker.onmessage = ({ data }) => {
      if (worker !== this.worker) return;
      if ("died" in data) this.died(data.died);
      else if ("ready" in data) this.ready();
      else this.answered(data.id, data.reply);
    };
    worker.onerror = (event) => {
      if (worker === this.worker) this.died(event.message ?? "the worker could not be loaded");
    };
    this.watch(this.patience.start, "the calculator did not start in time");
    this.next();
  }

  private ready(): void {
    this.up = true;
    if (this.state.value === "starting") this.state.value = "ready";
    if (this.asked) this.watch(this.patience.answer, "the calculator gave no answer in time");
    else clearTimeout(this.timer);
  }

  private next(): void {
    if (this.asked || !this.worker) return;
    this.asked = this.queue.shift();
    if (!this.asked) return;
    if (this.up) this.watch(this.patience.answer, "the calculator gave no answer in time");
    this.worker.postMessage({ id: ++this.id, name: this.asked.name, request: this.asked.request });
  }

  private answered(id: number, reply: string): void {
    if (id !== this.id || !this.asked) return;
    clearTimeout(this.timer);
    if (this.state.value === "restarted")
      this.recovering ??= setTimeout(() => this.recovered(), this.patience.well);
    const { done } = this.asked;
    this.asked = undefined;
    done(reply);
    this.next();
  }

  private recovered(): void {
    this.failures = 0;
    this.state.value = "ready";
  }

  private died(why: string): void {
    clearTimeout(this.timer);
    clearTimeout(this.recovering);
    this.recovering = undefined;
    this.worker?.terminate();
    this.worker = undefined;
    this.failures++;
    const asked = this.asked;
    this.asked = undefined;
    asked?.fail(new Died(why));
    if (this.failures >= this.patience.failures) {
      this.state.value = "stopped";
      this.abandon(why);
    } else {
      this.state.value = "restarted";
      this.begin();
      this.restarts.value++;
    }
  }

  private abandon(why: string): void {
    for (const waiting of this.queue.splice(0)) waiting.fail(new Died(why));
  }

  private watch(ms: number, why: string): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.died(why), ms);
  }
}

function read<N extends CalculationName>(reply: string): Answer<N> {
  const { answer, problems } = JSON.parse(reply) as { answer?: Answer<N>; problems?: Problem[] };
  if (answer === undefined) throw new Refused(problems ?? []);
  return answer;
}

/** A worker that was hired before this was read, and what it has said to nobody (public/hire.js). */
interface Hired {
  worker: DeskWorker;
  said: FromDesk[];
}

function hire(): DeskWorker {
  const early = globalThis as { hired?: Hired | undefined };
  const { hired } = early;
  if (!hired) return new Worker(new URL("./worker.ts", import.meta.url)) as unknown as DeskWorker;
  early.hired = undefined;
  queueMicrotask(() => {
    for (const data of hired.said) hired.worker.onmessage?.({ data });
  });
  return hired.worker;
}

/** The app's desk. */
export const desk = new Desk(hire);
