/** The last thing that can be taken back. Undo takes the place of asking “are you sure?”. */
import { signal } from "@preact/signals";

export interface Undoable {
  what: string;
  undo: () => void;
}

export const undoable = signal<Undoable | undefined>(undefined);

/** After so many ms one has gone on to other things, and the room is needed. */
const offered = 60_000;

export function offerUndo(what: string, back: () => void): void {
  const offer: Undoable = {
    what,
    undo: () => {
      back();
      if (undoable.value === offer) undoable.value = undefined;
    },
  };
  undoable.value = offer;
  setTimeout(() => {
    if (undoable.value === offer) undoable.value = undefined;
  }, offered);
}
