import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Stored } from "./entry";
import { type Folded, foldAll, heads } from "./fold";

interface Case {
  name: string;
  entries: Stored[];
  records: unknown[];
}

// The cases that the server's fold is held to as well.
const shared = join(import.meta.dirname, "../../../../server/log/contract/fold.json");
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
