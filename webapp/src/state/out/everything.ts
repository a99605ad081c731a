/**
 * All that this phone has in one ZIP, and back. What is in it is told in state/log/README.md; the server reads it too
 * (server/import.go).
 */
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { offerUndo } from "../../base/shell/undo";
import { documentsNow, takeDocument } from "../../base/store/kept";
import { text } from "../../base/text/text";
import { exchange } from "../exchange/exchange";
import { fromFile, mostCharacters, toFile, Unfit } from "../log/disk/file";
import { book, changed, summaries } from "../log/log";
import { isFull } from "../log/saying/writing";
import { keyOfPhone, marked } from "../log/signing";
import { hashOf, thumbOf } from "../photos/shrink";
import { bringTraces, keepTrace, traceNames, traceOf } from "../traces/traces";
import { faultWords } from "./files";
import { give } from "./give";

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
  "looks",
] as const;

/** The most bytes of a file of the ZIP, and of all of them: neither more is written nor more read. */
const [largestFile, largest] = [mostCharacters, 1e9];

/** What there is room for: true counts. */
function room(): (bytes: number) => boolean {
  let all = 0;
  return (bytes) => {
    if (bytes > largestFile || all + bytes > largest) return false;
    all += bytes;
    return true;
  };
}

/** The notes alone are more than could be read back. */
export class TooMuch extends Error {}

/** Bytes of the line that about.json has of a photo. */
const namedIn = 80;

const endings: { [type: string]: string } = { "image/jpeg": "jpg", "image/webp": "webp" };

/** The ZIP, and how many files there was no room for. Photos and traces are in it that are on this phone. */
export async function everything(now: number): Promise<{ zip: Uint8Array<ArrayBuffer>; left: number }> {
  const entries = await book.everyEntry();
  const files: { [name: string]: Uint8Array } = {};
  const photos: string[] = [];
  const fits = room();
  const notes = strToU8(toFile(await marked(entries, await keyOfPhone()), now));
  if (!fits(notes.length)) throw new TooMuch();
  const documents = documentsNow(kept);
  for (const [name, document] of Object.entries(documents)) {
    const file = strToU8(JSON.stringify(document));
    if (!fits(file.length)) throw new TooMuch();
    files[`documents/${name}.json`] = file;
  }
  let left = 0;
  for (const sha256 of await book.photoNames()) {
    const photo = await book.photo(sha256);
    const ending = photo && endings[photo.type];
    if (!photo || !ending) continue;
    if (!fits(photo.bytes.byteLength + namedIn)) {
      left++;
      continue;
    }
    photos.push(sha256);
    files[`photos/${sha256}.${ending}`] = new Uint8Array(photo.bytes);
  }
  for (const name of await traceNames()) {
    const trace = await traceOf(name);
    if (!trace) continue;
    if (fits(trace.length)) files[`traces/${name}`] = trace;
    else left++;
  }
  const about = {
    format,
    version,
    saved: now,
    entries: entries.length,
    photos,
    documents: Object.keys(documents),
  };
  files["about.json"] = strToU8(JSON.stringify(about, null, 1));
  files["notes.wirewake.json"] = notes;
  // Pictures are packed already.
  return { zip: zipSync(files, { level: 0, mtime: now }) as Uint8Array<ArrayBuffer>, left };
}

/** Hands it over; tells what is not in it. */
export async function saveEverything(): Promise<string | undefined> {
  const now = Date.now();
  const day = new Date(now).toISOString().slice(0, 10);
  try {
    // Who has tapped does not wait long.
    await bringTraces(
      (summaries.value ?? []).flatMap(({ parts }) => parts),
      2000,
    );
    const { zip, left } = await everything(now);
    const said = await give(`wirewake-${day}.zip`, zip, "application/zip");
    return left > 0 ? [said, t.left(left)].filter(Boolean).join(" ") : said;
  } catch (fault) {
    if (fault instanceof TooMuch) return t.tooMuch;
    throw fault;
  }
}

const t = text.notes.everything;

/** Takes in a ZIP; tells what came of it. Notes and photos join those that are here; documents wait for a tap. */
export async function loadEverything(file: Blob): Promise<{ said: string; documents: Map<string, unknown> }> {
  const none = new Map<string, unknown>();
  let files: { [name: string]: Uint8Array<ArrayBuffer> };
  const skipped: string[] = [];
  try {
    const fits = room();
    files = unzipSync(new Uint8Array(await file.arrayBuffer()), {
      filter: ({ name, originalSize }) => {
        const taken = fits(originalSize);
        if (!taken) skipped.push(name);
        return taken;
      },
    });
  } catch {
    return { said: text.notes.file.unreadable, documents: none };
  }
  if (["about.json", "notes.wirewake.json"].some((name) => skipped.includes(name)))
    return { said: text.notes.file.large, documents: none };
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
    photos.full += await takeTraces(files);
    await changed();
    exchange();
    const documents = new Map(
      kept.flatMap((name) => {
        const raw = files[`documents/${name}.json`];
        return raw ? [[name, parsed(raw)] as const] : [];
      }),
    );
    const said = [
      // Nothing of it was here already where there was no room for what it has.
      (count + photos.came > 0 || photos.full + skipped.length === 0) && t.loaded(count, photos.came),
      photos.full > 0 && t.full(photos.full),
      skipped.length > 0 && t.skipped(skipped.length),
    ];
    return { said: said.filter(Boolean).join(" "), documents };
  } catch (fault) {
    if (fault instanceof Unfit) return { said: faultWords(fault.why), documents: none };
    if (isFull(fault)) return { said: text.notes.file.full, documents: none };
    if (fault instanceof SyntaxError) return { said: text.notes.file.unreadable, documents: none };
    throw fault;
  }
}

/** A phone on which nothing is noted has a file without notes, which is in order here. */
const isEmpty = (notes: string): boolean => {
  const { entries } = JSON.parse(notes) as { entries?: unknown };
  return Array.isArray(entries) && entries.length === 0;
};

/** A document as it was stored; what is broken is none that could be taken, and is told as such then. */
function parsed(raw: Uint8Array): unknown {
  try {
    return JSON.parse(strFromU8(raw));
  } catch {
    return undefined;
  }
}

/** How many came in, and for how many the disk had no room. */
async function takePhotos(files: { [name: string]: Uint8Array }): Promise<{ came: number; full: number }> {
  const trips = new Map<unknown, string>();
  for (const { set, trip } of await book.entriesOfKinds(["photo"])) trips.set(set?.sha256, trip);
  const count = { came: 0, full: 0 };
  for (const [name, bytes] of Object.entries(files)) {
    const [, sha256, ending] = /^photos\/([0-9a-f]{64})\.(jpg|webp)$/.exec(name) ?? [];
    if (!sha256 || !ending) continue;
    const whole = bytes.slice().buffer;
    if ((await book.photo(sha256)) || (await hashOf(whole)) !== sha256) continue;
    const type = ending === "webp" ? "image/webp" : "image/jpeg";
    const full = { sha256, type, bytes: whole } as const;
    // No picture, whatever it is called.
    const thumb = await thumbOf(full).catch(() => undefined);
    if (!thumb) continue;
    try {
      await book.bringPhoto(full, thumb, trips.get(sha256));
      count.came++;
    } catch (fault) {
      if (!isFull(fault)) throw fault;
      count.full++;
    }
  }
  return count;
}

/** For how many the disk had no room. One that is not what its name says is passed over. */
async function takeTraces(files: { [name: string]: Uint8Array<ArrayBuffer> }): Promise<number> {
  let full = 0;
  for (const [name, bytes] of Object.entries(files)) {
    if (!name.startsWith("traces/")) continue;
    await keepTrace(name.slice(7), bytes).catch((fault) => {
      if (!isFull(fault)) throw fault;
      full++;
    });
  }
  return full;
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
