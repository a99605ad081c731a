/** A picture from the camera made small enough to keep and to send. Drawing it anew leaves its metadata behind. */
import type { Photo } from "../log/disk/db";

export interface Shrunk {
  full: Photo;
  thumb: Photo;
  width: number;
  height: number;
}

/** Longest sides in pixels, and the most bytes that the server takes. */
const longest = 1600;
const thumbLongest = 240;
const mostBytes = 2_000_000;
const type = "image/jpeg";

/** This is no picture, or none that this browser can read. */
export class NoPicture extends Error {}

export async function shrink(file: Blob): Promise<Shrunk> {
  const picture = await createImageBitmap(file).catch(() => {
    throw new NoPicture();
  });
  try {
    const full = await drawn(picture, longest);
    const small = await drawn(picture, thumbLongest);
    const bytes = await full.blob.arrayBuffer();
    const sha256 = await hashOf(bytes);
    return {
      full: { sha256, type, bytes },
      thumb: { sha256, type, bytes: await small.blob.arrayBuffer() },
      width: full.width,
      height: full.height,
    };
  } finally {
    picture.close();
  }
}

/** What the server sent, with a small one of it for lists. */
export async function thumbOf(full: Photo): Promise<Photo> {
  const { thumb } = await shrink(new Blob([full.bytes], { type: full.type }));
  return { ...thumb, sha256: full.sha256 };
}

async function drawn(picture: ImageBitmap, most: number) {
  const scale = Math.min(1, most / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const context = canvas.getContext("2d");
  if (!context) throw new NoPicture();
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  for (const quality of [0.85, 0.7, 0.5, 0.3]) {
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, type, quality));
    if (blob && blob.size <= mostBytes) return { blob, width: canvas.width, height: canvas.height };
  }
  throw new NoPicture();
}

/** SHA-256 in lower-case hex. */
export async function hashOf(bytes: ArrayBuffer): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(hash, (b) => b.toString(16).padStart(2, "0")).join("");
}

/** Pages that came by plain http cannot name a photo by its hash. */
export const canKeepPhotos = (): boolean => isSecureContext && "subtle" in crypto;
