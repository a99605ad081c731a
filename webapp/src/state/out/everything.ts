/**
 * All that this phone has in one ZIP, and back. What is in it is told in state/log/README.md; the server reads it too
 * (server/import.go).
 */
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { handOver } from "../../base/phone/hand-over";
import { offerUndo } from "../../base/shell/undo";
import { documentsNow, takeDocument } from "../../base/store/kept";
import { text } from "../../base/text/text";
import { exchange } from "../exchange/exchange";
import { fromFile, toFile, Unfit } from "../log/disk/file";
import { book, changed } from "../log/log";
import { keyOfPhone, marked } from "../log/signing";
import { hashOf, thumbOf } from "../photos/shrink";
import { faultWords } from "./files";

const format = "wirewake-everything";
const version = 1;

/** What is kept beside the log, by its names; what is only of this phone, such as its units, stays. */
const kept = [
  "gear",
  "spread",
  "rules",
  "boat",
  "lists",
  "pace",
  "marks",
  "lessons",
  "water",
  "doubt",
] as const;

/** A file of the ZIP, and all of them, m larger than any that this app makes. */
const [largestFile, largest] = [64e6, 1e9];

const endings: { [type: string]: string } = { "image/jpeg": "jpg", "image/webp": "webp" };

/** The ZIP. Photos are in it that are on this phone. */
export async function everything(now: number): Promise<Uint8Array<ArrayBuffer>> {
  const entries = await book.everyEntry();
  const files: { [name: string]: Uint8Array } = {};
  const photos: string[] = [];
  for (const sha256 of await book.photoNames()) {
    const photo = await book.photo(sha256);
    const ending = photo && endings[photo.type];
    if (!photo || !ending) continue;
    photos.push(sha256);
    files[`photos/${sha256}.${ending}`] = new Uint8Array(photo.bytes);
  }
  const documents = documentsNow(kept);
  const about = {
    format,
    version,
    saved: now,
    entries: entries.length,
    photos,
    documents: Object.keys(documents),
  };
  files["about.json"] = strToU8(JSON.stringify(about, null, 1));
  files["notes.wirewake.json"] = strToU8(toFile(await marked(entries, await keyOfPhone()), now));
  for (const [name, document] of Object.entries(documents))
    files[`documents/${name}.json`] = strToU8(JSON.stringify(document));
  // Pictures are packed already.
  return zipSync(files, { level: 0, mtime: now }) as Uint8Array<ArrayBuffer>;
}

export async function saveEverything(): Promise<void> {
  const now = Date.now();
  const day = new Date(now).toISOString().slice(0, 10);
  await handOver(`wirewake-${day}.zip`, await everything(now), "application/zip");
}

const t = text.notes.everything;

/** Takes in a ZIP; tells what came of it. Notes and photos join those that are here; documents wait for a tap. */
export async function loadEverything(file: Blob): Promise<{ said: string; documents: Map<string, unknown> }> {
  const none = new Map<string, unknown>();
  let files: { [name: string]: Uint8Array };
  try {
    let all = 0;
    files = unzipSync(new Uint8Array(await file.arrayBuffer()), {
      filter: ({ originalSize }) => {
        all += originalSize;
        return originalSize <= largestFile && all <= largest;
      },
    });
  } catch {
    return { said: text.notes.file.unreadable, documents: none };
  }
  try {
    const about = JSON.parse(strFromU8(files["about.json"] ?? new Uint8Array())) as Partial<{
      format: string;
      version: number;
    }>;
    if (about.format !== format) return { said: text.notes.file.other, documents: none };
    if ((about.version ?? 0) > version) return { said: text.notes.file.newer, documents: none };
    const notes = strFromU8(files["notes.wirewake.json"] ?? new Uint8Array());
    const count = isEmpty(notes) ? 0 : await book.adopt(fromFile(notes), text.notes.record.someone);
    const photos = await takePhotos(files);
    await changed();
    exchange();
    const documents = new Map(
      kept.flatMap((name) => {
        const raw = files[`documents/${name}.json`];
        return raw ? [[name, JSON.parse(strFromU8(raw)) as unknown] as const] : [];
      }),
    );
    return { said: t.loaded(count, photos), documents };
  } catch (fault) {
    if (fault instanceof Unfit) return { said: faultWords(fault.why), documents: none };
    if (fault instanceof SyntaxError) return { said: text.notes.file.unreadable, documents: none };
    throw fault;
  }
}

/** A phone on which nothing is noted has a file without notes, which is in order here. */
const isEmpty = (notes: string): boolean => {
  const { entries } = JSON.parse(notes) as { entries?: unknown };
  return Array.isArray(entries) && entries.length === 0;
};

async function takePhotos(files: { [name: string]: Uint8Array }): Promise<number> {
  let count = 0;
  for (const [name, bytes] of Object.entries(files)) {
    const [, sha256, ending] = /^photos\/([0-9a-f]{64})\.(jpg|webp)$/.exec(name) ?? [];
    if (!sha256 || !ending) continue;
    const whole = bytes.slice().buffer;
    if ((await book.photo(sha256)) || (await hashOf(whole)) !== sha256) continue;
    const type = ending === "webp" ? "image/webp" : "image/jpeg";
    const full = { sha256, type, bytes: whole } as const;
    try {
      await book.keepPhoto(full, await thumbOf(full));
      count++;
    } catch {
      // No picture, whatever it is called.
    }
  }
  return count;
}

/** Puts the documents of a ZIP in the place of those here, with the way back. Tells how many could not be read. */
export function takeDocuments(documents: Map<string, unknown>): number {
  const back: (() => void)[] = [];
  let unread = 0;
  for (const [name, raw] of documents) {
    const undo = takeDocument(name, raw);
    if (undo) back.push(undo);
    else unread++;
  }
  if (back.length > 0)
    offerUndo(t.took, () => {
      for (const undo of back) undo();
    });
  return unread;
}
