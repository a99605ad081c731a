/** What a list of trips needs to say of one, so that it need not read the trip. */
import { latestNow } from "../../../base/phone/clock";
import { type Stored, same } from "../../entry/entry";
import { byFirst, byRecord, type Folded, foldAll, number, words } from "../../entry/fold";

export interface Summary {
  trip: string;
  name: string;
  ground: string;
  /** ms since 1970, as told, or else of the first entry; closed is null while it runs. */
  opened: number;
  closed: number | null;
  struck: boolean;
  /** The latest entry of what was noted, by its writer's clock, and no later than it came. */
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

/** A record of a trip: its entries, and what they come to; undefined where none of them can be read. */
export interface Whole {
  entries: Stored[];
  folded: Folded | undefined;
}

export const wholeOf = (entries: Stored[]): Whole => ({ entries, folded: foldAll(entries)[0] });

/**
 * A summary with what has become of one record, so that a trip need not be read as a whole when something is noted.
 * Undefined: this takes something back, or hangs on other records too, and the trip is to be summarised anew.
 */
export function withRecord(summary: Summary, before: Whole, now: Whole): Summary | undefined {
  const { folded: was } = before;
  const { folded: is } = now;
  if ((was && !is) || !goesOn(before, now) || (is?.kind === "boat" && (was || summary.boat)))
    return undefined;
  const next = {
    ...summary,
    hookups: summary.hookups + isHookup(is) - isHookup(was),
    unsent: summary.unsent + waiting(now.entries) - waiting(before.entries),
  };
  if (!is) return next;
  for (const entry of now.entries) {
    const { at, unreadable } = entry;
    if (unreadable) continue;
    next.first = Math.min(next.first ?? at, at);
    // A clock gone mad does not keep a trip going for years, and what one dates ahead is noted by now.
    const now = latestNow();
    if (at < now + dayAhead && isNoting(entry)) next.last = Math.max(next.last, Math.min(at, now));
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
  if (is.kind === "boat") next.boat = boatOf([is]);
  next.opened = next.told ?? next.first ?? 0;
  return next;
}

/** Whether what was said of it before still stands, and was said when it was. */
function goesOn({ entries: before }: Whole, { entries: now }: Whole): boolean {
  const by = new Map(now.map((entry) => [entry.id, entry]));
  return before.every((was) => {
    const is = by.get(was.id);
    return (
      is?.at === was.at &&
      !is.unreadable === !was.unreadable &&
      !is.replaced === !was.replaced &&
      (is.kind === was.kind || !(is.kind === "trip" || was.kind === "trip")) &&
      (was.kind !== "trip" || same(is.set, was.set))
    );
  });
}

/** Of several the last in order that is not struck out. */
const boatOf = (boats: Folded[]): string =>
  boats.flatMap((boat) => (boat.kind === "boat" && !boat.struck && words(boat, "name")) || []).at(-1) ?? "";

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

/** Of all entries of a trip. */
export function summarise(entries: Stored[]): Summary {
  const none = wholeOf([]);
  const wholes = [...byRecord(entries).values()].map(wholeOf);
  let all = unknownTrip(entries[0]?.trip ?? "");
  for (const whole of wholes) if (whole.folded?.kind !== "boat") all = withRecord(all, none, whole) ?? all;
  const boats = wholes.filter(({ folded }) => folded?.kind === "boat");
  for (const whole of boats) all = withRecord({ ...all, boat: "" }, none, whole) ?? all;
  const folded = boats.flatMap((boat) => boat.folded ?? []);
  return { ...all, boat: boatOf(folded.sort(byFirst)) };
}
