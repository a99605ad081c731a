/** Which of the hookups that are noted a fish is that comes up. */
import { type Folded, words } from "../log/fold";

/** A hookup longer ago than this was another fish, ms. */
const fight = 15 * 60_000;

/**
 * The last hookup of the last quarter of an hour of which nobody has told what became of it, and which no other fish
 * is; taken are their notes, by trip and record. A clock that is a little ahead does not matter.
 */
export function hookupFor(all: Folded[], taken: string[], now: number): Folded | undefined {
  return all.findLast(
    (record) =>
      record.kind === "mark" &&
      !record.struck &&
      !words(record, "fate") &&
      words(record, "fish") !== "lost" &&
      !taken.some((note) => note.endsWith(`.${record.id}`)) &&
      Math.abs(now - (record.entries[0]?.at ?? 0)) <= fight,
  );
}
