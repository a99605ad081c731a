/** Photos between this phone's disk and the server. */
import type { Photo } from "../log/db";
import { book } from "../log/log";
import { sendPhoto } from "./send";
import { hashOf, thumbOf } from "./shrink";

const urlOf = (sha256: string) => `/api/photos/${sha256}`;

/** Sends those that the server wants and this phone has. */
export async function sendPhotos(wanted: string[]): Promise<void> {
  for (const sha256 of wanted) {
    const photo = await book.photo(sha256);
    if (!photo) continue;
    const sent = await sendPhoto(photo, (name, range, body, type) =>
      fetch(urlOf(name), {
        method: "PUT",
        headers: { "Content-Type": type, "Content-Range": range },
        body: body ?? null,
      }),
    );
    if (sent === "later") return;
  }
}

const coming = new Map<string, Promise<boolean>>();
let line: Promise<unknown> = Promise.resolve();

/** Fetches a photo that another phone took, one after the other. True: it is on this phone now. */
export function fetchPhoto(sha256: string): Promise<boolean> {
  let fetching = coming.get(sha256);
  if (!fetching) {
    fetching = line.then(() => receive(sha256)).catch(() => false);
    line = fetching;
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
