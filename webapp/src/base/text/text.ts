/** The words in use, by room and name: only by such a name, so that nobody loads the words of other rooms with it. */

import { fromDesk as known } from "./rooms/frame";
import type { en } from "./spoken/en";

export * as text from "./rooms";

export type Text = typeof en;

/** What came with the catalogue or the rules, in the language in use where it is known. */
export const fromDesk = (english: string): string => known[english] ?? english;
