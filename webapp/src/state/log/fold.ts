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
  /** What somebody set a field to who did not know of what shows, nor the other way round. */
  alternatives: Map<string, Version[]>;
  /** All its entries, in the order in which they count. */
  entries: Stored[];
}

const inOrder = (a: Stored, b: Stored): number =>
  (a.no ?? Number.MAX_VALUE) - (b.no ?? Number.MAX_VALUE) || a.n - b.n || (a.id < b.id ? -1 : 1);

/** All records of these entries, in the order of their first ones. An entry held twice is one entry. */
export function foldAll(entries: Stored[]): Folded[] {
  const byId = new Map<string, Stored>();
  for (const entry of entries) {
    if (!entry.replaced && byId.get(entry.id)?.no === undefined) byId.set(entry.id, entry);
  }
  const byRecord = new Map<string, Stored[]>();
  for (const entry of [...byId.values()].sort(inOrder)) {
    const record = byRecord.get(entry.record);
    if (record) record.push(entry);
    else byRecord.set(entry.record, [entry]);
  }
  return [...byRecord.values()].map(fold);
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
  const knows = knowledge(entries);
  const fields = new Map<string, Version>();
  const alternatives = new Map<string, Version[]>();
  for (const [field, given] of versions) {
    const shown = given[given.length - 1] as Version;
    fields.set(field, shown);
    const others = given.filter(
      (one) => !same(one.value, shown.value) && !given.some(({ from }) => knows(from.id, one.from.id)),
    );
    if (others.length > 0) alternatives.set(field, others);
  }
  const struck = fields.get("struck")?.value === true;
  fields.delete("struck");
  return { id, kind, trip, fields, struck, alternatives, entries };
}

/** Whether one entry knows another: by its prev, or by what these know. */
function knowledge(entries: Stored[]): (one: string, other: string) => boolean {
  const prev = new Map(entries.map((entry) => [entry.id, entry.prev]));
  const known = new Map<string, Set<string>>();
  return (one, other) => {
    let all = known.get(one);
    if (!all) {
      all = new Set();
      const open = [one];
      for (let next = open.pop(); next !== undefined; next = open.pop()) {
        for (const id of prev.get(next) ?? []) {
          if (!all.has(id)) open.push(id);
          all.add(id);
        }
      }
      all.delete(one);
      known.set(one, all);
    }
    return all.has(other);
  };
}

/** The entries of a record that no other one follows on: what the next entry has before its eyes. */
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
