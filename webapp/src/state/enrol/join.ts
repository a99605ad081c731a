/** This phone and the boat's server get to know each other. */
import { exchange } from "../exchange/exchange";
import type { You } from "../log/db";
import { book, changed, noteIn, running, you } from "../log/log";
import { invitation } from "./arrive";
import { askToEnrol, Failed, whoAmI } from "./server";

/** Enrols this phone, and begins to exchange. */
export async function enrol(by: { invitation: string } | { code: string }, name: string): Promise<You> {
  const me = await askToEnrol(by, name);
  invitation.value = undefined;
  await known(me);
  return me;
}

/** Looks whether this phone is enrolled already: a browser may have kept that and lost all else. */
export async function lookWhoIAm(): Promise<You> {
  const me = await whoAmI();
  await known(me);
  return me;
}

/** At the start of the app: has the server renew this phone's cookie. If it is out of reach, another day will do. */
export async function renew(): Promise<void> {
  if (!you.value) return;
  try {
    await book.setMeta("you", await whoAmI());
    await changed();
  } catch (fault) {
    if (!(fault instanceof Failed)) throw fault;
  }
}

async function known(me: You): Promise<void> {
  await book.setMeta("you", me);
  await changed();
  // A guest notes in the trip of the invitation.
  if (me.role === "guest" && me.trip && running.value?.trip !== me.trip) noteIn(me.trip);
  exchange();
}
