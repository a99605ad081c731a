/** The log, read once. */
import { effect, untracked } from "@preact/signals";
import { clockAhead } from "../../../base/phone/clock";
import { sayIn } from "../../log/beside/projecting";
import { loadLog } from "../../log/saying/load";
import { sayings } from "./search";

let reading: Promise<void> | undefined;

/**
 * Reads it, for whoever needs it first; from then on what is noted is put into words too. Until it is read nobody knows which
 * trip runs: what is noted earlier begins another. Never fails.
 */
export function logRead(): Promise<void> {
  reading ??= read();
  return reading;
}

/** What taps have asked for and is still to be done. */
const asked = new Set<string>();

/** Does what goes by the notes, and by what else is to be read, once that is read; who taps again meanwhile means the same. */
export async function onceRead(what: string, act: () => void, also?: Promise<void>): Promise<void> {
  if (asked.has(what)) return;
  asked.add(what);
  await Promise.all([logRead(), also]);
  asked.delete(what);
  act();
}

async function read(): Promise<void> {
  // Which trips are over is told by the boat's clock.
  await clockAhead.loaded();
  effect(() => {
    const words = sayings.value;
    untracked(() => sayIn(words));
  });
  await loadLog();
}
