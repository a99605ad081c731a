/**
 * A phone's key, and the mark it puts to what it writes (server/sync/README.md, Who wrote it). The private half never
 * leaves the browser, which does not let even this app read it.
 */
import { canonical, content, type Entry } from "./entry";

/** Both halves: the public one compressed, in base64url. */
export interface Key {
  private: CryptoKey;
  public: string;
}

const curve = { name: "ECDSA", namedCurve: "P-256" };
const signing = { name: "ECDSA", hash: "SHA-256" };

/** A new key; undefined where the browser makes none: on pages that came by plain http. */
export async function makeKey(): Promise<Key | undefined> {
  if (!globalThis.crypto?.subtle) return undefined;
  const pair = await crypto.subtle.generateKey(curve, false, ["sign", "verify"]);
  const point = new Uint8Array(await crypto.subtle.exportKey("raw", pair.publicKey));
  // SEC 1, section 2.3.3: X, and which of the two Y it is.
  const compressed = point.slice(0, 33);
  compressed[0] = 2 + ((point[64] as number) & 1);
  return { private: pair.privateKey, public: base64url(compressed) };
}

const base64url = (bytes: Uint8Array): string =>
  btoa(String.fromCharCode(...bytes))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replace(/=+$/, "");

const bytesIn = (text: string): Uint8Array =>
  Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (c) => c.charCodeAt(0));

/** What the phone with this key is known by. */
export async function deviceOf({ public: key }: Pick<Key, "public">): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytesIn(key) as BufferSource)).slice(
    0,
    16,
  );
  hash[6] = 0x80 | ((hash[6] as number) & 0x0f);
  hash[8] = 0x80 | ((hash[8] as number) & 0x3f);
  const hex = Array.from(hash, (b) => b.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

async function sign(key: Key, text: string): Promise<Uint8Array> {
  return new Uint8Array(await crypto.subtle.sign(signing, key.private, new TextEncoder().encode(text)));
}

/** Proves to the server that this phone has the key. */
export const proofOf = async (key: Key, ...what: string[]): Promise<string> =>
  base64url(await sign(key, `wirewake ${what.join("\n")}`));

/** The mark of the phone of this name on an entry. */
export async function markOf(key: Key, name: string, entry: Entry): Promise<string> {
  const signature = await sign(key, `wirewake entry\n${name}\n${canonical(content(entry))}`);
  const mark = new Uint8Array(33 + signature.length);
  mark.set(bytesIn(key.public));
  mark.set(signature, 33);
  return base64url(mark);
}
