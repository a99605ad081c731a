/** The records of a trip, found by id and by kind. What is put in folds its own record anew and no other: a trip may be large. */
import type { Stored } from "./entry";
import { type Folded, foldAll } from "./fold";

export class Records {
  private constructor(
    /** In the order of their first entries. */
    readonly all: Folded[],
    private readonly kinds: Map<string, Folded[]>,
    /** Where each was last put: shared by all that came of one another, so it is looked whether it is there. */
    private readonly places: Map<string, number>,
  ) {}

  static readonly none = Records.from([]);

  static of(entries: Stored[]): Records {
    return Records.from(foldAll(entries));
  }

  private static from(all: Folded[]): Records {
    const kinds = new Map<string, Folded[]>();
    for (const record of all) {
      const some = kinds.get(record.kind);
      if (some) some.push(record);
      else kinds.set(record.kind, [record]);
    }
    return new Records(all, kinds, new Map(all.map(({ id }, at) => [id, at])));
  }

  find(id: string): Folded | undefined {
    const there = this.all[this.places.get(id) ?? -1];
    return there?.id === id ? there : this.all.find((record) => record.id === id);
  }

  ofKind(kind: string): Folded[] {
    return this.kinds.get(kind) ?? [];
  }

  /** The same with what has been put, in order: new entries after all others, or others in place of what they were. */
  with(put: Stored[]): Records {
    if (put.length === 0) return this;
    const last = new Map(put.map((entry) => [entry.id, entry]));
    const all = [...this.all];
    const kinds = new Map(this.kinds);
    const own = new Set<string>();
    for (const id of new Set(put.map((entry) => entry.record))) {
      const was = this.find(id);
      const before = was?.entries.filter((entry) => !last.has(entry.id)) ?? [];
      const [now] = foldAll([...before, ...[...last.values()].filter((entry) => entry.record === id)]);
      if (was && now?.kind !== was.kind) {
        // What it said is all said again elsewhere: others move up.
        const left = all.flatMap((record) => (record.id !== id ? [record] : now ? [now] : []));
        return Records.from(left).with(put.filter((entry) => entry.record !== id));
      }
      if (!now) continue;
      if (!own.has(now.kind)) kinds.set(now.kind, [...(kinds.get(now.kind) ?? [])]);
      own.add(now.kind);
      const some = kinds.get(now.kind) as Folded[];
      replace(some, was ? some.lastIndexOf(was) : -1, now);
      this.places.set(id, replace(all, was ? all.lastIndexOf(was) : -1, now));
    }
    return new Records(all, kinds, this.places);
  }
}

/** Puts one in its place, or at the end; gives where it is. */
function replace(all: Folded[], at: number, one: Folded): number {
  if (at < 0) return all.push(one) - 1;
  all[at] = one;
  return at;
}
