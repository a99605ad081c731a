/** The last thing that can be taken back. Undo takes the place of asking “are you sure?”. */
import { signal } from "@preact/signals";

export interface Undoable {
  what: string;
  undo: () => void;
}

export const undoable = signal<Undoable | undefined>(undefined);

export function offerUndo(what: string, back: () => void): void {
  const offer: Undoable = {
    what,
    undo: () => {
      back();
      if (undoable.value === offer) undoable.value = undefined;
    },
  };
  undoable.value = offer;
}
