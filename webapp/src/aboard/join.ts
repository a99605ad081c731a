/** This phone and the boat's server get to know each other. */
import { exchange } from "../exchange/exchange";
import type { You } from "../log/db";
import { book, changed, noteIn, running } from "../log/log";
import { invitation } from "./arrive";
import { enrol, whoAmI } from "./server";

/** Comes aboard, and begins to exchange. */
export async function comeAboard(by: { invitation: string } | { code: string }, name: string): Promise<You> {
  const you = await enrol(by, name);
  invitation.value = undefined;
  await known(you);
  return you;
}

/** Looks whether this phone is aboard already: a browser may have kept that and lost all else. */
export async function lookWhoIAm(): Promise<You> {
  const you = await whoAmI();
  await known(you);
  return you;
}

async function known(you: You): Promise<void> {
  await book.setMeta("you", you);
  await changed();
  // A guest notes in the trip of the invitation.
  if (you.role === "guest" && you.trip && running.value?.trip !== you.trip) noteIn(you.trip);
  exchange();
}
