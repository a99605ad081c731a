/** Listens to what the boat's server hears of the instruments, while this phone is aboard and somebody looks. */
import { computed, effect, signal, untracked } from "@preact/signals";
import { status } from "../exchange/exchange";
import { you } from "../log/log";
import { heard, readEvent, readPast, second } from "./heard";
import { notePast, notePing } from "./pings";
import { noteHeading } from "./turning";

/** The server says something every two seconds: after so long without a word, ms, the line is dead. */
const silence = 4500;
/** So long, ms, is waited for the first word: a connection may hang. */
const first = 10_000;
/** It is tried again so soon, and at most so late, ms; where there is nothing to hear, so late. */
const soonest = 1000;
const latest = 15_000;
const nothing = 300_000;

/** The state of an EventSource that is closed for good, as one that is refused; else the network failed (HTML, 9.2). */
const closed = 2;

/** What is needed of an EventSource. */
export interface Stream {
  readonly readyState: number;
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: Event) => void) | null;
  addEventListener(kind: string, take: (event: MessageEvent) => void): void;
  close(): void;
}

export class Listener {
  private stream: Stream | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private pause = soonest;
  private last = "";
  private wanted = false;
  private refused = false;

  constructor(private readonly open: (after: string) => Stream) {}

  listen(): void {
    this.wanted = true;
    if (!this.stream) this.begin();
  }

  /** The server was just in reach: what waits to be tried again is tried now. */
  reached(): void {
    if (this.wanted && !this.stream && !this.refused) this.begin();
  }

  stop(): void {
    this.wanted = false;
    this.end();
  }

  private end(): void {
    clearTimeout(this.timer);
    this.stream?.close();
    this.stream = undefined;
  }

  private begin(): void {
    this.end();
    const stream = this.open(this.last);
    this.stream = stream;
    let said = false;
    const again = () => {
      if (this.stream !== stream) return;
      // By a server without instruments, or an older one. One that is not reached may be so at any moment.
      this.refused = stream.readyState === closed && !said && !heard.peek();
      this.end();
      if (!this.wanted) return;
      const pause = this.refused ? nothing : this.pause;
      if (!this.refused) this.pause = Math.min(2 * this.pause, latest);
      this.timer = setTimeout(() => this.begin(), pause);
    };
    this.timer = setTimeout(again, first);
    const came = ({ lastEventId }: MessageEvent) => {
      said = true;
      this.pause = soonest;
      if (/^\d{1,16}$/.test(lastEventId)) this.last = lastEventId;
      clearTimeout(this.timer);
      this.timer = setTimeout(again, silence);
    };
    stream.addEventListener("past", (event) => {
      came(event);
      const past = readPast(event.data);
      if (past) notePast(past);
    });
    stream.onmessage = (event) => {
      came(event);
      const now = readEvent(event.data);
      if (!now) return;
      heard.value = now;
      notePing(now);
      noteHeading(now);
    };
    stream.onerror = again;
  }
}

const listener = new Listener(
  (after) => new EventSource(after ? `/api/instruments?after=${after}` : "/api/instruments"),
);

export function keepHearing(): void {
  const seen = signal(document.visibilityState === "visible");
  document.addEventListener("visibilitychange", () => {
    seen.value = document.visibilityState === "visible";
  });
  effect(() => {
    const on = you.value !== undefined && seen.value;
    untracked(() => (on ? listener.listen() : listener.stop()));
  });
  const exchanged = computed(() => status.value.last);
  effect(() => {
    if (exchanged.value !== undefined) listener.reached();
  });
  effect(() => {
    if (heard.value === undefined) return;
    const timer = setInterval(() => second.value++, 1000);
    return () => clearInterval(timer);
  });
}
