/** Notes out of this phone into a file, and back in. */

import { text } from "../../base/text/text";
import type { Stored } from "../entry/entry";
import { exchange } from "../exchange/exchange";
import { type FileFault, fromFile, toFile, Unfit } from "../log/disk/file";
import { book, changed } from "../log/log";
import { isFull } from "../log/saying/writing";
import { keyOfPhone, marked } from "../log/signing";
import { fileName } from "./formats";
import { give } from "./give";

/** Hands a file of these notes to the person. */
export async function saveNotes(entries: Stored[], name: string): Promise<string | undefined> {
  return give(
    `${fileName(name)}.wirewake.json`,
    toFile(await marked(entries, await keyOfPhone()), Date.now()),
  );
}

/** Takes in a file; tells what came of it. */
export async function loadNotes(file: File): Promise<string> {
  try {
    const count = await book.adopt(fromFile(await file.text()), text.notes.record.someone);
    await changed();
    exchange();
    return text.notes.past.loaded(count);
  } catch (fault) {
    if (isFull(fault)) return t.full;
    if (!(fault instanceof Unfit)) throw fault;
    return faultWords(fault.why);
  }
}

const t = text.notes.file;

export const faultWords = (fault: FileFault): string =>
  fault.code === "entry" ? t.entry(fault.place, fault.fault) : t[fault.code];
