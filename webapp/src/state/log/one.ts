/**
 * Trips that were made one: `into` of a trip's own record leads to the trip that it is a part of from now on. No entry is
 * moved by it; the records of all parts are seen together. The rules are told in server/sync/README.md.
 */
import type { Summary } from "./disk/summary";

/** A trip with all that was made one with it: named, begun and closed as its root is. */
export interface Trip extends Summary {
  /** The trips that it is made of, its root first. */
  parts: string[];
}

/**
 * Where `into` leads from a trip: the one that it is a part of, itself if it is a part of none. Where it leads round in
 * a circle, as when two phones said it at once the opposite way, it is the least id of the circle.
 */
export function rootIn(into: ReadonlyMap<string, string>, trip: string): string {
  const way: string[] = [];
  for (let at = trip; ; ) {
    const again = way.indexOf(at);
    if (again >= 0) return way.slice(again).sort()[0] as string;
    way.push(at);
    const next = into.get(at);
    if (next === undefined) return at;
    at = next;
  }
}

/** What each trip leads to. A trip of which this phone holds nothing is no place to lead to. */
export function intoOf(summaries: Summary[]): Map<string, string> {
  const known = new Set(summaries.map(({ trip }) => trip));
  return new Map(summaries.flatMap(({ trip, into }) => (into && known.has(into) ? [[trip, into]] : [])));
}

/** The trips that there are, the latest first. */
export function tripsOf(summaries: Summary[]): Trip[] {
  const into = intoOf(summaries);
  const byRoot = new Map<string, Summary[]>();
  for (const summary of summaries) {
    const root = rootIn(into, summary.trip);
    const parts = byRoot.get(root);
    if (!parts) byRoot.set(root, [summary]);
    else if (summary.trip === root) parts.unshift(summary);
    else parts.push(summary);
  }
  return [...byRoot.values()].map(asOne).sort((a, b) => b.opened - a.opened);
}

/** A trip of one part is the same as long as that is. */
const alone = new WeakMap<Summary, Trip>();

function asOne(parts: Summary[]): Trip {
  const [root] = parts as [Summary];
  if (parts.length > 1) return together(parts);
  const trip = alone.get(root) ?? together(parts);
  alone.set(root, trip);
  return trip;
}

function together(parts: Summary[]): Trip {
  const [root, ...others] = parts as [Summary, ...Summary[]];
  const trip: Trip = { ...root, parts: parts.map((part) => part.trip) };
  for (const { hookups, last, first, boat } of others) {
    trip.hookups += hookups;
    trip.last = Math.max(trip.last, last);
    if (first !== null) trip.first = Math.min(trip.first ?? first, first);
    trip.boat ||= boat;
  }
  return trip;
}
