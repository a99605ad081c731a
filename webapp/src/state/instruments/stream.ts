/** Listens to what the boat's server hears of the instruments, while this phone is aboard and somebody looks. */
import { effect, signal, untracked } from "@preact/signals";
import { you } from "../log/log";
import { beat, heard, readEvent, readPast } from "./heard";
import { notePast, notePing } from "./pings";

/** The server says something every two seconds: after so long without a word, ms, the line is dead. */
const silence = 4500;
/** It is tried again so soon, and at most so late, ms; where there is nothing to hear, so late. */
const soonest = 1000;
const latest = 15_000;
const nothing = 300_000;

/** What is needed of an EventSource. */
export interface Stream {
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

  constructor(private readonly open: (after: string) => Stream) {}

  listen(): void {
    this.wanted = true;
    if (!this.stream) this.begin();
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
      this.end();
      if (!this.wanted) return;
      // One that never said a word is refused, or of a server without instruments, or an older one.
      const pause = said || heard.peek() ? this.pause : nothing;
      this.pause = Math.min(2 * this.pause, latest);
      this.timer = setTimeout(() => this.begin(), pause);
    };
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
  effect(() => {
    if (heard.value === undefined) return;
    const timer = setInterval(() => beat.value++, 1000);
    return () => clearInterval(timer);
  });
}
