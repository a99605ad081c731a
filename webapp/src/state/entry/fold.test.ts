import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Stored } from "./entry";
import { type Folded, foldAll, foldedWith, heads } from "./fold";

interface Case {
  name: string;
  entries: Stored[];
  records: unknown[];
}

// The cases that the server's fold is held to as well.
const shared = join(import.meta.dirname, "../../../../server/sync/contract/fold.json");
const { cases } = JSON.parse(readFileSync(shared, "utf8")) as { cases: Case[] };

/** A record as the shared cases write it. */
const told = ({ id, kind, trip, struck, fields, conflicts, entries }: Folded) => ({
  record: id,
  kind,
  trip,
  struck,
  fields: Object.fromEntries([...fields].map(([name, { value, from }]) => [name, { value, from: from.id }])),
  conflicts: Object.fromEntries(
    [...conflicts].map(([name, all]) => [name, all.map(({ value, from }) => ({ value, from: from.id }))]),
  ),
  entries: entries.map((entry) => entry.id),
});

describe("the shared cases", () => {
  it("are there", () => expect(cases.length).toBeGreaterThan(20));

  it.each(cases)("$name", ({ entries, records }) => {
    expect(foldAll(entries).map(told)).toEqual(records);
    // Any order of arrival, and any of them twice.
    fc.assert(
      fc.property(
        fc.shuffledSubarray([...entries, ...entries], { minLength: 2 * entries.length }),
        (arrived) => {
          expect(foldAll(arrived).map(told)).toEqual(records);
        },
      ),
      { numRuns: 20 },
    );
  });
});

it("a prev that leads in a circle is no trap", () => {
  const entry = (id: string, prev: string[], no: number): Stored => ({
    id,
    prev,
    no,
    record: "r",
    kind: "note",
    trip: "t",
    set: { text: id },
    at: 0,
    n: no,
  });
  const [record] = foldAll([entry("a", ["b"], 1), entry("b", ["a"], 2), entry("c", ["c"], 3)]);
  expect(record?.fields.get("text")?.value).toBe("c");
});

it("an entry follows on all that nothing follows on", () => {
  const entry = (id: string, prev: string[]) => ({ id, prev }) as Stored;
  expect(heads([])).toEqual([]);
  expect(heads([entry("a", []), entry("b", ["a"]), entry("c", ["a"])])).toEqual(["b", "c"]);
  expect(heads([entry("a", []), entry("b", ["a"]), entry("c", ["a", "b"])])).toEqual(["c"]);
});

/** What a phone puts after another, in any portions, new or in place of what it was, folds as all of it does at once. */
it("what is put in one after the other folds as all of it", () => {
  const one = fc.record({
    record: fc.constantFrom("r", "s", "t", "u"),
    kind: fc.constant("note"),
    value: fc.nat(3),
    replaces: fc.option(fc.nat(20)),
    unreadable: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
    first: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(one, { maxLength: 25 }), fc.nat(4), (said, portion) => {
      const held = new Map<string, Stored>();
      let records: Folded[] = [];
      let put: Stored[] = [];
      const add = (entry: Stored) => {
        held.set(entry.id, entry);
        put.push(entry);
      };
      said.forEach(({ record, kind, value, replaces, unreadable, first }, i) => {
        const earlier = [...held.values()].filter((entry) => entry.record === record);
        const old = replaces === null ? undefined : earlier[replaces % Math.max(1, earlier.length)];
        const id = `e${i}`;
        add({
          ...{ id, record, kind, trip: "t", at: 0, n: i + 1, set: { text: value } },
          prev: first ? [] : heads(earlier),
          ...(unreadable && { unreadable: { text: "{}", why: "" } }),
        });
        if (old) add({ ...old, replaced: id });
        if (put.length > portion) {
          records = foldedWith(records, put);
          put = [];
        }
      });
      records = foldedWith(records, put);
      const byId = (all: Folded[]) => all.map(told).sort((a, b) => (a.record < b.record ? -1 : 1));
      expect(byId(records)).toEqual(byId(foldAll([...held.values()])));
    }),
    { numRuns: 500 },
  );
});
