/**
 * What a record says, from all its entries: each later one overwrites the fields it sets. Later is what the
 * server has numbered higher; after those come the entries without a number. The rules are told in
 * server/sync/README.md, and every client must fold alike.
 */
import { type Stored, same } from "./entry";

/** A value of a field, and the entry that gave it. */
export interface Version {
  value: unknown;
  from: Stored;
}

/** A record as it is now. */
export interface Folded {
  id: string;
  kind: string;
  trip: string;
  fields: Map<string, Version>;
  struck: boolean;
  /** Values that people gave a field without knowing of the one that is shown, nor its writer of theirs. */
  conflicts: Map<string, Version[]>;
  /** All its entries, in the order in which they count. */
  entries: Stored[];
}

/** The order in which entries count. */
export const inOrder = (a: Stored, b: Stored): number =>
  (a.no ?? Number.MAX_VALUE) - (b.no ?? Number.MAX_VALUE) || a.n - b.n || (a.id < b.id ? -1 : 1);

/** The order of records: that of their first entries. */
export const byFirst = (a: Folded, b: Folded): number =>
  inOrder(a.entries[0] as Stored, b.entries[0] as Stored);

/** Entries by the record that they speak of, in the order of its first one. */
export function byRecord(entries: Stored[]): Map<string, Stored[]> {
  const all = new Map<string, Stored[]>();
  for (const entry of entries) {
    const record = all.get(entry.record);
    if (record) record.push(entry);
    else all.set(entry.record, [entry]);
  }
  return all;
}

/** All records of these entries, in the order of their first ones. An entry held twice is one entry. */
export function foldAll(entries: Stored[]): Folded[] {
  const byId = new Map<string, Stored>();
  for (const entry of entries) {
    const passedOver = entry.replaced || entry.unreadable;
    if (!passedOver && byId.get(entry.id)?.no === undefined) byId.set(entry.id, entry);
  }
  return [...byRecord([...byId.values()].sort(inOrder)).values()].map(fold);
}

/** Folds the entries of one record, at least one, in order. */
function fold(entries: Stored[]): Folded {
  const { record: id, kind, trip } = entries[0] as Stored;
  const versions = new Map<string, Version[]>();
  for (const from of entries) {
    for (const [field, value] of Object.entries(from.strike ? { struck: true } : (from.set ?? {}))) {
      const earlier = versions.get(field);
      if (earlier) earlier.push({ value, from });
      else versions.set(field, [{ value, from }]);
    }
  }
  const graph = new Map(entries.map((entry) => [entry.id, entry.prev]));
  const fields = new Map<string, Version>();
  const conflicts = new Map<string, Version[]>();
  for (const [field, given] of versions) {
    const shown = given[given.length - 1] as Version;
    fields.set(field, shown);
    const differ = given.filter((one) => one !== shown && !same(one.value, shown.value));
    if (differ.length === 0) continue;
    const descendants = descendantsIn(given, graph);
    const others = differ.filter(
      ({ from }) => ![...(descendants.get(from.id) ?? [])].some((id) => id !== from.id),
    );
    if (others.length > 0) conflicts.set(field, others);
  }
  const struck = fields.get("struck")?.value === true;
  fields.delete("struck");
  return { id, kind, trip, fields, struck, conflicts, entries };
}

/**
 * Of which of these versions an entry is an ancestor: what their prev names, and its ancestors. Two at most, since more
 * say no more; so every entry is gone through twice at most, however many there are.
 */
function descendantsIn(given: Version[], graph: Map<string, string[]>): Map<string, Set<string>> {
  const found = new Map<string, Set<string>>();
  for (const { from } of given) {
    const open = [from.id];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      for (const id of graph.get(next) ?? []) {
        const of = found.get(id) ?? new Set();
        found.set(id, of);
        if (of.size === 2 || of.has(from.id)) continue;
        of.add(from.id);
        open.push(id);
      }
    }
  }
  return found;
}

/** The entries of a record that are nobody's ancestor: the prev of the next one. */
export function heads(entries: Stored[]): string[] {
  const followed = new Set(entries.flatMap((entry) => entry.prev));
  return entries
    .map((entry) => entry.id)
    .filter((id) => !followed.has(id))
    .slice(-32);
}

/** A field as text or number, if that is what it is: other phones may write what they like. */
export function words(record: Folded, field: string): string | undefined {
  const value = record.fields.get(field)?.value;
  return typeof value === "string" && value !== "" ? value : undefined;
}

export function number(record: Folded, field: string): number | undefined {
  const value = record.fields.get(field)?.value;
  return typeof value === "number" && Number.isFinite(value) ? value : undefined;
}
