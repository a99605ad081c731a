/** The latest records of a kind over all trips, without reading the others. */
import type { Stored } from "../../entry/entry";
import { type Folded, foldAll } from "../../entry/fold";
import { ofKind } from "../disk/projections";
import { book } from "../log";

export interface Latest {
  records: Folded[];
  /** There are others before them. */
  more: boolean;
}

/** So many are asked for and folded at a time that no tap waits for it. */
const part = 40;

/** Reads them again and again: of what was read before only what has changed since. */
export class LatestRecords {
  private read = new Map<string, { turn: string; folded: Folded | undefined }>();

  /** Undefined: whether or not they say how the rod was rigged. */
  constructor(
    private readonly kinds: readonly string[],
    private readonly asked?: boolean,
  ) {}

  /** So many of them that are not struck out; undefined as long as that is not known of all trips. */
  first(count: number): Promise<Latest | undefined> {
    return this.look({ count });
  }

  /** All of them since then that are not struck out; undefined likewise. */
  async since(from: number): Promise<Folded[] | undefined> {
    return (await this.look({ from }))?.records;
  }

  /** Those of these records that are not struck out. */
  async of(records: string[]): Promise<Folded[]> {
    const entries = await book.entriesOfRecords(records);
    return entries.flatMap((of) => this.fold(of) ?? []).filter(({ struck }) => !struck);
  }

  private async look(wanted: { count: number } | { from: number }): Promise<Latest | undefined> {
    const either = this.asked === undefined ? [true, false] : [this.asked];
    const found = await book.latest(
      this.kinds.flatMap((kind) => either.map((asked) => ofKind(kind, asked))),
      wanted,
    );
    if (!found) return undefined;
    const turns = new Map<string, string>();
    for (const { record, turn } of found.lines) turns.set(record, `${turns.get(record) ?? ""} ${turn}`);
    const changed = [...turns].flatMap(([record, turn]) =>
      this.read.get(record)?.turn === turn ? [] : [record],
    );
    const anew = new Map<string, Folded | undefined>();
    for (let i = 0; i < changed.length; i += part) {
      const some = changed.slice(i, i + part);
      const entries = await book.entriesOfRecords(some);
      for (const [j, record] of some.entries()) anew.set(record, this.fold(entries[j] ?? []));
    }
    this.read = new Map(
      [...turns].map(([record, turn]) => {
        const folded = anew.has(record) ? anew.get(record) : this.read.get(record)?.folded;
        return [record, { turn, folded }];
      }),
    );
    const records = [...this.read.values()].flatMap(({ folded }) => folded ?? []);
    return { records: records.filter(({ struck }) => !struck), more: found.more };
  }

  private fold(entries: Stored[]): Folded | undefined {
    return foldAll(entries.filter(({ kind }) => this.kinds.includes(kind)))[0];
  }
}
