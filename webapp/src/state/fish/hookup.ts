/** Which of the hookups in the notes belongs to a fish that comes up. */
import { type Folded, words } from "../entry/fold";

/** A hookup longer ago than this was another fish, ms. */
const fight = 15 * 60_000;

/**
 * The hookups of the last quarter of an hour that nobody has told the end of, and that belong to no other fish; taken are
 * the notes of those, by trip and record. A clock that is a little ahead does not matter.
 */
export function openHookups(all: Folded[], taken: string[], now: number): Folded[] {
  return all.filter(
    (record) =>
      record.kind === "mark" &&
      !record.struck &&
      !words(record, "fate") &&
      words(record, "fish") !== "lost" &&
      !taken.some((note) => note.endsWith(`.${record.id}`)) &&
      Math.abs(now - (record.entries[0]?.at ?? 0)) <= fight,
  );
}

/** The last of them: which of several it is, is asked. */
export const hookupFor = (all: Folded[], taken: string[], now: number): Folded | undefined =>
  openHookups(all, taken, now).at(-1);
