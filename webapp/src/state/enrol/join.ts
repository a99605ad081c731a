/** This phone and the boat's server get to know each other. */

import { deviceOf, type Key, makeKey } from "../entry/mark";
import { exchange } from "../exchange/exchange";
import type { You } from "../log/disk/db";
import { book, changed, noteIn, rootOf, running, you } from "../log/log";
import { invitation } from "./arrive";
import { askToEnrol, Failed, nameAfter, whoAmI } from "./server";

/** Enrols this phone, and begins to exchange. */
export async function enrol(by: { invitation: string } | { code: string }, name: string): Promise<You> {
  const key = await keyOfTry("code" in by ? by.code : by.invitation, name);
  const me = await askToEnrol(by, name, key).catch(async (fault) => {
    // The server knows nothing of this try, or has shut that phone out: the next one is another's to it, and what was
    // tried is in the way of asking, or of a code.
    if (isSaid(fault, "invitation")) {
      invitation.value = undefined;
      await book.setMeta("coming", undefined);
    }
    throw fault;
  });
  invitation.value = undefined;
  await aboard(me, key);
  await book.setMeta("coming", undefined);
  return me;
}

/** A key of its own for each try; for the same one made again, because its answer was lost, the same. */
async function keyOfTry(secret: string, name: string): Promise<Key | undefined> {
  const fresh = await makeKey();
  if (!fresh) return undefined;
  const by = await sha256(`${secret}\n${name}`);
  const kept = await book.meta("coming");
  if (kept?.by === by) return kept.key;
  await book.setMeta("coming", { key: fresh, by });
  return fresh;
}

async function sha256(text: string): Promise<string> {
  const hash = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

const isSaid = (fault: unknown, code: string): boolean =>
  fault instanceof Failed && fault.why.kind === "said" && fault.why.code === code;

/** This phone has come aboard, with the key that it showed. */
export async function aboard(me: You, key: Key | undefined): Promise<void> {
  if (key && me.device === (await deviceOf(key))) await book.setMeta("key", key);
  await known(me);
}

/** Looks whether this phone is enrolled already: a browser may have kept that and lost all else. */
export async function lookWhoIAm(): Promise<You> {
  const me = await named(await whoAmI());
  await known(me);
  return me;
}

/** At the start of the app: has the server renew this phone's cookie. If it is out of reach, another day will do. */
export async function renew(): Promise<void> {
  if (!you.value) return;
  try {
    await book.setMeta("you", await named(await whoAmI()));
    await changed();
  } catch (fault) {
    if (!(fault instanceof Failed)) throw fault;
  }
}

/** A phone that was enrolled without a key, or has lost it, is known by one from now on. */
async function named(me: You): Promise<You> {
  if (!me.marks) return me;
  const kept = await book.meta("key");
  if (kept && me.device === (await deviceOf(kept))) return me;
  const key = await makeKey();
  if (!key) return me;
  const anew = await nameAfter(key, me.device).catch((fault) => {
    // Without a key it is aboard all the same.
    if (isSaid(fault, "key")) return undefined;
    throw fault;
  });
  if (!anew) return me;
  await book.setMeta("key", key);
  return anew;
}

async function known(me: You): Promise<void> {
  await book.setMeta("you", me);
  await changed();
  // A guest notes in the trip of the invitation.
  if (!me.may.includes("trips") && me.trip && running.value?.trip !== rootOf(me.trip)) noteIn(me.trip);
  exchange();
}
