/** Keeps what is kept beside the entries of all of the log: where an older app kept it otherwise, or not, it is made anew. */
import { signal } from "@preact/signals";
import { soon } from "../../../base/shell/soon";
import type { Words } from "../disk/projections";
import { book } from "../log";

/** Whether all records are known without reading their trips; undefined until that is known. */
export const projected = signal<boolean | undefined>(undefined);

/** So many entries at once that no tap waits for them. */
const part = 40;

/** Trouble with the disk is told where notes are written; here it is only tried again, after so long, ms. */
const again = 60_000;

let making = false;
/** What was made is not all any more. */
let anew = false;
let retry: ReturnType<typeof setTimeout> | undefined;

/** From now on records are put into these words. */
export function sayIn(words: Words): void {
  if (book.words?.version === words.version) return;
  book.words = words;
  book.fellBehind = make;
  book.forgetWords();
  make();
}

async function make(): Promise<void> {
  anew = true;
  if (making) return;
  making = true;
  clearTimeout(retry);
  try {
    while (anew) {
      anew = false;
      projected.value = await book.isProjected();
      while (!(await book.remake(part))) await soon();
    }
    projected.value = true;
  } catch {
    retry = setTimeout(make, again);
  } finally {
    making = false;
  }
}
