/**
 * What a record is now, from all its entries: each later one overwrites the fields it sets. Later is what
 * the server has numbered higher; after those come this phone's own entries that have no number yet.
 */
import type { Stored } from "./entry";

/** A value that a field has or had, and the entry that gave it. */
export interface Version {
  value: unknown;
  entry: Stored;
}

/** A record as it is now. */
export interface Folded {
  id: string;
  kind: string;
  trip: string;
  fields: Map<string, Version>;
  /** What others set a field to without having seen the value that shows. */
  others: Map<string, Version[]>;
  struck: boolean;
  /** All its entries, in the order in which they count. */
  entries: Stored[];
}

/** Entries in the order in which they count. */
export function inOrder(entries: Stored[]): Stored[] {
  return [...entries].sort(
    (a, b) => place(a) - place(b) || (a.no ?? a.earlier ?? 0) - (b.no ?? b.earlier ?? 0) || a.n - b.n,
  );
}

/** Numbered first; then those of others that have lost their number; then this phone's own. */
const place = (e: Stored): number => (e.no !== undefined ? 0 : e.own ? 2 : 1);

/** Folds the entries of one record; there is at least one. */
export function fold(entries: Stored[]): Folded {
  const ordered = inOrder(entries);
  const first = ordered[0] as Stored;
  const given = new Map<string, Version[]>();
  for (const entry of ordered) {
    for (const [field, value] of Object.entries(entry.strike ? { struck: true } : (entry.set ?? {}))) {
      const versions = given.get(field) ?? [];
      versions.push({ value, entry });
      given.set(field, versions);
    }
  }
  const fields = new Map<string, Version>();
  const others = new Map<string, Version[]>();
  for (const [field, versions] of given) {
    const shown = versions[versions.length - 1] as Version;
    fields.set(field, shown);
    const unseen = versions.filter((v) => v !== shown && v.entry.prev === shown.entry.prev);
    if (unseen.length > 0) others.set(field, unseen);
  }
  return {
    id: first.record,
    kind: first.kind,
    trip: first.trip,
    fields,
    others,
    struck: fields.get("struck")?.value === true,
    entries: ordered,
  };
}

/** All records of these entries, each folded, in no particular order. */
export function foldAll(entries: Stored[]): Folded[] {
  const byRecord = new Map<string, Stored[]>();
  for (const entry of entries) {
    if (entry.replaced) continue;
    const own = byRecord.get(entry.record);
    if (own) own.push(entry);
    else byRecord.set(entry.record, [entry]);
  }
  return [...byRecord.values()].map(fold);
}

/** The latest entry of a record: what the next one will have seen. */
export const lastOf = (record: Folded): Stored => record.entries[record.entries.length - 1] as Stored;

/** A field as text or number, if that is what it is: other phones may write what they like. */
export function words(record: Folded, field: string): string | undefined {
  const value = record.fields.get(field)?.value;
  return typeof value === "string" && value !== "" ? value : undefined;
}

export function number(record: Folded, field: string): number | undefined {
  const value = record.fields.get(field)?.value;
  return typeof value === "number" && Number.isFinite(value) ? value : undefined;
}
