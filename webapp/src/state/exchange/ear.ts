/**
 * Hears from the boat's server that there is news, so that a note is on the other phones at once. It only hastens what
 * the exchange does by itself: when the stream breaks off it is let go, and begun anew after the next exchange that
 * succeeds, which waits longer and longer while the server is out of reach.
 */
import { record, sound, whole, wordsUpTo } from "../../base/store/shape";

/** All that this phone may see is numbered up to this, in this epoch. */
export interface Word {
  epoch: string;
  upto: number;
}

const word = record<Word>({ epoch: wordsUpTo(200), upto: whole(0) });

/** The server says something every 30 s: after so long without a word, ms, the line is dead. */
const silence = 75_000;

/** What is needed of an EventSource. */
export interface Stream {
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: Event) => void) | null;
  close(): void;
}

export class Ear {
  private stream: Stream | undefined;
  private watch: ReturnType<typeof setTimeout> | undefined;
  private over: (() => void) | undefined;

  constructor(
    private readonly open: () => Stream,
    private readonly onWord: (word: Word) => unknown,
    /** It broke off by itself. */
    private readonly onLost: () => unknown,
  ) {}

  get listening(): boolean {
    return this.stream !== undefined;
  }

  /** Listens until it breaks off or is stopped. */
  listen(): Promise<void> {
    if (this.stream) return Promise.resolve();
    const stream = this.open();
    this.stream = stream;
    let heard = false;
    const lost = () => {
      if (this.stream !== stream) return;
      this.stop();
      // One that never said a word is refused, or a server that is older: the exchange does without.
      if (heard) this.onLost();
    };
    stream.onmessage = ({ data }) => {
      heard = true;
      clearTimeout(this.watch);
      this.watch = setTimeout(lost, silence);
      const said = read(data);
      if (said) this.onWord(said);
    };
    // The browser would try again and again every few seconds, also with nobody there.
    stream.onerror = lost;
    return new Promise((done) => {
      this.over = done;
    });
  }

  stop(): void {
    clearTimeout(this.watch);
    this.stream?.close();
    this.stream = undefined;
    this.over?.();
    this.over = undefined;
  }
}

function read(data: unknown): Word | undefined {
  try {
    return sound(word, JSON.parse(String(data)));
  } catch {
    return undefined;
  }
}
