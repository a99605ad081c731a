/** What a list of trips needs to say of one, so that it need not read the trip. */
import type { Stored } from "../../entry/entry";
import { byRecord, type Folded, foldAll, number, words } from "../../entry/fold";

export interface Summary {
  trip: string;
  name: string;
  ground: string;
  /** ms since 1970, as told, or else of the first entry; closed is null while it runs. */
  opened: number;
  closed: number | null;
  struck: boolean;
  /** The latest entry of what was noted, by its writer's clock. */
  last: number;
  hookups: number;
  /** The first entry, by its writer's clock; null while none can be read. */
  first: number | null;
  /** When it was opened, if that was told. */
  told: number | null;
  /** The trip that it is a part of from now on; null: of none. */
  into: string | null;
  /** It stays a trip of its own: nobody is asked again. */
  apart: boolean;
  /** Who began it, and of which boat; empty where that is not told. This phone's own has no name. */
  who: string;
  boat: string;
  /** Who closed it; null: this phone, or it is open. */
  closedBy: string | null;
  /** How many entries wait to be sent. */
  unsent: number;
}

/** So far ahead a clock may be and still be believed, ms. */
const dayAhead = 86_400_000;

const waiting = (entries: Stored[]): number => entries.filter((entry) => entry.out).length;

const isHookup = (record: Folded | undefined): number => (record?.kind === "mark" && !record.struck ? 1 : 0);

/** What closes a trip, or puts it with another or apart from it, is not noted in it; what opens it again is. */
const isNoting = ({ kind, set }: Stored): boolean =>
  kind !== "trip" ||
  Object.entries(set ?? {}).some(
    ([field, value]) =>
      !["into", "apart", "struck"].includes(field) && (field !== "closed" || value === null),
  );

/**
 * A summary with what has become of one record: its entries before and now. So a trip need not be read as a whole
 * when something is noted.
 */
export function withRecord(summary: Summary, before: Stored[], now: Stored[]): Summary {
  const [was] = foldAll(before);
  const [is] = foldAll(now);
  const next = {
    ...summary,
    hookups: summary.hookups + isHookup(is) - isHookup(was),
    unsent: summary.unsent + waiting(now) - waiting(before),
  };
  if (!is) return next;
  for (const entry of now) {
    const { at, unreadable } = entry;
    if (unreadable) continue;
    next.first = Math.min(next.first ?? at, at);
    // A clock gone mad does not keep a trip going for years.
    if (at < Date.now() + dayAhead && isNoting(entry)) next.last = Math.max(next.last, at);
  }
  if (is.kind === "trip") {
    next.name = words(is, "name") ?? "";
    next.ground = words(is, "ground") ?? "";
    next.told = number(is, "opened") ?? null;
    next.closed = number(is, "closed") ?? null;
    next.struck = is.struck;
    next.into = words(is, "into") ?? null;
    next.apart = is.fields.get("apart")?.value === true;
    next.who = writerOf(is.entries[0]) ?? "";
    next.closedBy = next.closed === null ? null : (writerOf(is.fields.get("closed")?.from) ?? null);
  }
  if (is.kind === "boat" && !is.struck) next.boat = words(is, "name") ?? next.boat;
  next.opened = next.told ?? next.first ?? 0;
  return next;
}

export const unknownTrip = (trip: string): Summary => ({
  trip,
  name: "",
  ground: "",
  opened: 0,
  closed: null,
  struck: false,
  last: 0,
  hookups: 0,
  first: null,
  told: null,
  into: null,
  apart: false,
  who: "",
  boat: "",
  closedBy: null,
  unsent: 0,
});

/** The name of another phone; this one needs none. */
const writerOf = (entry: Stored | undefined): string | undefined => (entry?.own ? undefined : entry?.byName);

export const summarise = (entries: Stored[]): Summary =>
  [...byRecord(entries).values()].reduce(
    (summary, all) => withRecord(summary, [], all),
    unknownTrip(entries[0]?.trip ?? ""),
  );
