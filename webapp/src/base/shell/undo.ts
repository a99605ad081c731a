/** What can be taken back, the last first. Undo takes the place of asking “are you sure?”. */
import { computed, signal } from "@preact/signals";

export interface Undoable {
  what: string;
  /** When it was done, ms. */
  at: number;
  /** What has come of it, known only after; then said first. */
  more?: (() => string | undefined) | undefined;
  undo: () => void;
}

interface Kept extends Undoable {
  /** What a row of the same small changes has in common. */
  row?: string | undefined;
}

/** More than anybody remembers; older ones are forgotten. */
const most = 10;
/** So many ms the offer stands beside what is being done; after that it is one tap away. */
const announced = 10_000;
/** Small changes within so many ms of each other are one. */
const together = 60_000;

/** Whether it was done so long ago that who reads it again must not take it for anew. */
export const isEarlier = ({ at }: Undoable): boolean => Date.now() - at > announced;

const offers = signal<Kept[]>([]);

export const undoable = computed<Undoable | undefined>(() => offers.value.at(-1));

/** Whether the offer is said just now, and not only one tap away. */
export const announcing = signal(false);
let ending: ReturnType<typeof setTimeout> | undefined;

function announce(): void {
  clearTimeout(ending);
  announcing.value = true;
  ending = setTimeout(() => {
    announcing.value = false;
  }, announced);
}

/** Who has gone on to another place need not be told any more. */
export function placeLeft(): void {
  clearTimeout(ending);
  announcing.value = false;
}

function put(offer: Omit<Kept, "undo">, back: () => void): void {
  const kept: Kept = {
    ...offer,
    undo: () => {
      offers.value = offers.value.filter((one) => one !== kept);
      back();
      if (offers.value.length === 0) announcing.value = false;
    },
  };
  offers.value = [...offers.value, kept].slice(-most);
}

export function offerUndo(what: string, back: () => void, more?: () => string | undefined): void {
  put({ what, more, at: Date.now() }, back);
  announce();
}

/** As offerUndo, for one of many small steps: a row of them is taken back together, and none is announced. */
export function offerUndoOfRow(row: string, what: string, back: () => void): void {
  const last = offers.value.at(-1);
  if (last?.row === row && Date.now() - last.at < together) {
    last.at = Date.now();
    return;
  }
  put({ what, row, at: Date.now() }, back);
}

/** Says again what can be taken back. */
export const showUndo = announce;
