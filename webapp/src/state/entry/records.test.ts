import fc from "fast-check";
import { expect, it } from "vitest";
import type { Stored } from "./entry";
import { foldAll, heads } from "./fold";
import { Records } from "./records";

/** What a phone puts after another, in any portions, new or in place of what it was, folds as all of it does at once. */
it("what is put in one after the other folds as all of it", () => {
  const one = fc.record({
    record: fc.constantFrom("r", "s", "t", "u"),
    kind: fc.constantFrom("note", "mark"),
    value: fc.nat(3),
    replaces: fc.option(fc.nat(20)),
    unreadable: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
    first: fc.boolean(),
    numbers: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(one, { maxLength: 25 }), fc.nat(4), (said, portion) => {
      const held = new Map<string, Stored>();
      let records = Records.none;
      let put: Stored[] = [];
      const add = (entry: Stored) => {
        held.set(entry.id, entry);
        put.push(entry);
      };
      let no = 0;
      said.forEach(({ record, kind, value, replaces, unreadable, first, numbers }, i) => {
        const earlier = [...held.values()].filter((entry) => entry.record === record);
        const old = replaces === null ? undefined : earlier[replaces % Math.max(1, earlier.length)];
        const id = `e${i}`;
        add({
          ...{ id, record, kind, trip: "t", at: 0, n: i + 1, set: { text: value } },
          prev: first ? [] : heads(earlier),
          ...(unreadable && { unreadable: { text: "{}", why: "" } }),
        });
        if (old) add({ ...old, replaced: id });
        // The server numbers some of them, in whatever order.
        const waits = [...held.values()].filter((entry) => entry.no === undefined && !entry.replaced);
        const next = waits[value % Math.max(1, waits.length)];
        if (numbers && next) add({ ...next, no: ++no });
        if (put.length > portion) {
          records = records.with(put);
          put = [];
        }
      });
      records = records.with(put);
      const all = foldAll([...held.values()]);
      expect(records.all).toEqual(all);
      for (const kind of ["note", "mark"])
        expect(records.ofKind(kind)).toEqual(all.filter((one) => one.kind === kind));
      for (const record of all) expect(records.find(record.id)).toEqual(record);
      expect(records.find("other")).toBeUndefined();
    }),
    { numRuns: 500 },
  );
});
