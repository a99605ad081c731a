/** What the sounder read, as somebody typed or stepped it, and how long ago. Kept: a reload is no reason to run aground. */
import { limits } from "../../base/desk/types/rise.gen";
import { Kept } from "../../base/store/kept";
import { list, number, record, within } from "../../base/store/shape";
import { type Ping, pings } from "../instruments/pings";

export interface Sounding {
  /** m. */
  depth: number;
  /** ms, by the wall clock. */
  at: number;
}

/** One that the boat's instruments told, with how far the boat had gone then. */
export type Read = Sounding & { run?: number };

/** What is older than this, in s, has long passed the farthest lure. */
const passed = 900;
/** Steps that follow each other within so many ms lead to one reading. */
const stepping = 1000;

/** When what had been read until then was forgotten, ms. */
export const forgotten = new Kept("forgotten", number, 0);

/** The latest first. */
export const soundings = new Kept<Sounding[]>(
  "soundings",
  list(record<Sounding>({ depth: within(limits.Sounding.depth), at: number }), limits.Query.soundings.most),
  [],
);

/** Those that still tell something; of a clock that was set back since, none do. */
export const recent = (all: Sounding[], now: number): Sounding[] =>
  all.filter(({ at }) => at <= now && now - at < passed * 1000);

/** With one more, or the last one corrected while it is still being stepped to. */
export function withSounding(all: Sounding[], depth: number, now: number): Sounding[] {
  const kept = recent(all, now);
  const [last, ...before] = kept;
  return [{ depth, at: now }, ...(last && now - last.at < stepping ? before : kept)].slice(
    0,
    limits.Query.soundings.most,
  );
}

/** What was read of late, the latest first: what the instruments told, and from before that what was typed. */
export function readOf(typed: Sounding[], told: Ping[], now: number): Read[] {
  const pinged = recent(told, now) as Read[];
  const oldest = pinged.at(-1)?.at ?? Number.POSITIVE_INFINITY;
  return [...pinged, ...recent(typed, now).filter(({ at }) => at < oldest)].slice(
    0,
    limits.Query.soundings.most,
  );
}

export function readNow(now: number): Read[] {
  const from = forgotten.signal.value;
  // A clock that was set back since knows of none.
  const counts = ({ at }: Sounding) => at > from || from > now;
  return readOf(soundings.signal.value.filter(counts), pings.value.filter(counts), now);
}

export const sound = (depth: number): void => soundings.set(withSounding(soundings.value, depth, Date.now()));
