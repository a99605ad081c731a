/** Photos between this phone's disk and the server. */
import type { Photo } from "../log/disk/db";
import { book, recount } from "../log/log";
import { Queue } from "./queue";
import { hashOf, thumbOf } from "./shrink";

const urlOf = (sha256: string) => `/api/photos/${sha256}`;

/** A part that is not there after so long, ms, is asked for anew: what came of it stays. */
const patience = 120_000;

/** The part that is on its way, to be let go of. */
let way = new AbortController();

const queue = new Queue(
  book,
  (name, range, body, type) => {
    const mine = new AbortController();
    way = mine;
    setTimeout(() => mine.abort(), patience);
    return fetch(urlOf(name), {
      method: "PUT",
      headers: { "Content-Type": type, "Content-Range": range },
      body: body ?? null,
      signal: mine.signal,
    });
  },
  recount,
);

/** Sends the photos of this phone that are not known to be on the server, and those that it asks for; true: the line broke. */
export const sendPhotos = (wanted: string[]): Promise<boolean> => queue.send(wanted);

/** The server was out of reach and is back: a part sent on the line of before gets no answer any more. */
export function photosBack(): void {
  queue.back();
  way.abort();
}

/** Puts none off any longer. */
export const tryAllPhotos = (): void => queue.hurry();

/** After each photo in a row that is not there, ms, so much longer until the next is asked for; and at most. */
const slower = 100;
const slowest = 1000;
let missed = 0;

const coming = new Map<string, Promise<boolean>>();
let line: Promise<unknown> = Promise.resolve();

/** Fetches a photo that another phone took, one after the other. True: it is on this phone now. */
export function fetchPhoto(sha256: string): Promise<boolean> {
  let fetching = coming.get(sha256);
  if (!fetching) {
    fetching = line.then(() => receive(sha256)).catch(() => false);
    // A guest can name hundreds that never come.
    line = fetching.then((came) => {
      missed = came ? 0 : missed + 1;
      return new Promise((over) => setTimeout(over, Math.min(missed * slower, slowest)));
    });
    coming.set(sha256, fetching);
    fetching.then(() => coming.delete(sha256));
  }
  return fetching;
}

async function receive(sha256: string): Promise<boolean> {
  const response = await fetch(urlOf(sha256));
  if (!response.ok) return false;
  const bytes = await response.arrayBuffer();
  if ((await hashOf(bytes)) !== sha256) return false;
  const type = response.headers.get("Content-Type") === "image/webp" ? "image/webp" : "image/jpeg";
  const full: Photo = { sha256, type, bytes };
  await book.keepPhoto(full, await thumbOf(full));
  return true;
}
