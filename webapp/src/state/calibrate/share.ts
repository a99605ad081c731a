/** What skipper or mate teach goes with the log, so that the boat's other phones have it too. */
import { effect, untracked } from "@preact/signals";
import type { Fields } from "../entry/entry";
import type { Folded } from "../entry/fold";
import { gear, pick } from "../gear/gear";
import { placeNoted } from "../gear/names";
import { running } from "../log/log";
import { note, strike, unstrike } from "../log/saying/say";
import { asItIsNow } from "../log/saying/strike-out";
import { type Asked, taughtKind } from "./observe";
import { seenOf, type Taught, taught } from "./taught";
import { inLog, taughtInLog } from "./touches";

/** Noted by this page, and perhaps not on disk yet. */
const noting = new Map<string, Folded>();

/** Brings into the running trip what is on this phone only; and lets go of it here once the log has it on disk. */
export function keepSharing(mayTeach: () => boolean): void {
  effect(() => {
    if (!taughtInLog.value) return;
    const all = taught.signal.value;
    const here = all.filter(({ id }) => !inLog.value.has(id));
    if (here.length < all.length) taught.set(here);
    if (!running.value || !mayTeach()) return;
    const known = gear.value;
    untracked(() => {
      for (const one of here) {
        const fields = noting.has(one.id) ? undefined : fieldsOf(one, known);
        if (fields) noting.set(one.id, note(taughtKind, fields));
      }
    });
  });
}

/** As a record of the log has it; undefined where its rig is not aboard any more. */
function fieldsOf(one: Taught, g: typeof gear.value): Fields | undefined {
  const seen = seenOf(one, g);
  if (!seen) return undefined;
  const { rod, wire, lure, speedDoubt = 0, readingDoubt = 0 } = seen;
  const name = placeNoted(pick(g.places, one.place));
  const { water } = seen.sea;
  const asked: Asked = { name, rod, wire, lure, ...(water && { water }), speedDoubt, readingDoubt };
  const { dropper } = rod.rig;
  return {
    rod: name,
    lineOut: one.lineOut,
    drail: one.drail,
    ...(dropper && { sinker: dropper.sinker }),
    speed: one.speed,
    [one.kind === "known" ? "bottom" : one.kind]: one.reading,
    was: one.at,
    taught: one.id,
    asked,
  };
}

/** Takes back what was taught, wherever it is by now; returns the way to have it again. */
export function unteach(id: string): () => void {
  const record = inLog.value.get(id) ?? noting.get(id);
  if (record) {
    strike(record);
    return async () => unstrike(await asItIsNow(record));
  }
  const before = taught.value;
  taught.set(before.filter((one) => one.id !== id));
  return () => taught.set([...before.filter((one) => one.id === id), ...taught.value]);
}
