/** The records of a trip, found by id and by kind. What is put in folds its own record anew and no other: a trip may be large. */
import type { Stored } from "./entry";
import { byFirst, byRecord, type Folded, foldAll } from "./fold";

export class Records {
  private constructor(
    /** In the order of their first entries. */
    readonly all: Folded[],
    private readonly kinds: ReadonlyMap<string, Folded[]>,
    /** Where each is, and where those are that were put in since these were read as a whole. */
    private readonly places: ReadonlyMap<string, number>,
    private readonly added: ReadonlyMap<string, number> = new Map(),
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

  private placeOf(id: string): number | undefined {
    return this.added.get(id) ?? this.places.get(id);
  }

  find(id: string): Folded | undefined {
    return this.all[this.placeOf(id) ?? -1];
  }

  ofKind(kind: string): Folded[] {
    return this.kinds.get(kind) ?? nothing;
  }

  /** The same with what has been put: new entries, or others in place of what they were. */
  with(put: Stored[]): Records {
    if (put.length === 0) return this;
    const last = new Map(put.map((entry) => [entry.id, entry]));
    const all = [...this.all];
    const added = new Map(this.added);
    const changed: { at: number; was: Folded | undefined; now: Folded }[] = [];
    const gone = new Set<Folded>();
    for (const [id, entries] of byRecord([...last.values()])) {
      const at = this.placeOf(id) ?? all.length;
      const was = this.find(id);
      const before = was?.entries.filter((entry) => !last.has(entry.id)) ?? [];
      const [now] = foldAll([...before, ...entries]);
      if (now) {
        all[at] = now;
        if (!was) added.set(id, at);
        changed.push({ at, was, now });
      } else if (was) gone.add(was);
    }
    const stands = ({ at, was, now }: (typeof changed)[number]) =>
      (!was || was.kind === now.kind) && inTurn(all[at - 1], now) && inTurn(now, all[at + 1]);
    if (gone.size > 0 || !changed.every(stands))
      return Records.from(all.filter((one) => !gone.has(one)).sort(byFirst));
    return new Records(all, this.kindsWith(changed), this.places, added);
  }

  private kindsWith(changed: { was: Folded | undefined; now: Folded }[]): ReadonlyMap<string, Folded[]> {
    const kinds = new Map(this.kinds);
    const own = new Set<string>();
    for (const { was, now } of changed) {
      const had = kinds.get(now.kind) ?? [];
      const some = own.has(now.kind) ? had : [...had];
      kinds.set(now.kind, some);
      own.add(now.kind);
      if (was) some[some.lastIndexOf(was)] = now;
      else some.push(now);
    }
    return kinds;
  }
}

/** Always the same, so that nobody takes it for something new. */
const nothing: Folded[] = [];

const inTurn = (one: Folded | undefined, other: Folded | undefined): boolean =>
  !one || !other || byFirst(one, other) <= 0;
