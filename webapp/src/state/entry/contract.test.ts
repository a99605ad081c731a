import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, it } from "vitest";
import { fitting, isPhoneName, rightsOf } from "./contract";
import { contract } from "./contract.gen";
import { faultOf } from "./entry";

/** The cases that the server judges too. */
const shared = join(import.meta.dirname, "../../../../server/log/contract/entries.json");

const { base, cases, names } = JSON.parse(readFileSync(shared, "utf8")) as {
  base: object;
  cases: { name: string; code: string; with: object; without?: string[] }[];
  names: { name: string; good: boolean }[];
};

it("every case of the contract is judged as the server judges it", () => {
  const wrong = cases.flatMap(({ name, code, with: fields, without = [] }) => {
    const entry: { [field: string]: unknown } = { ...base, ...fields };
    for (const field of without) delete entry[field];
    const fault = faultOf(entry);
    return (fault === undefined) === (code === "") ? [] : [`${name}: ${fault}, not ${code}`];
  });
  expect(wrong).toEqual([]);
  expect(cases.length).toBeGreaterThan(900);
});

it("every name of a phone is judged as the server judges it", () => {
  expect(names.map(({ name }) => ({ name, good: isPhoneName(name) }))).toEqual(names);
});

it("a role that nobody knows may do the least", () => {
  expect(rightsOf("skipper")).toContain("invite");
  for (const role of ["guest", "owner", "", "toString", "__proto__"]) expect(rightsOf(role)).toEqual([]);
});

it("whatever is to be noted is written so that the server takes it, but for its size", () => {
  const kinds = [...Object.keys(contract.kinds), "kite"];
  const names = [
    ...Object.values(contract.kinds).flatMap((fields) => Object.keys(fields)),
    "lat",
    "fixAge",
    "more",
  ];
  const text = fc.string({ unit: "binary", maxLength: 220 });
  const value = fc.oneof(
    { weight: 3, arbitrary: fc.double() },
    { weight: 3, arbitrary: text },
    fc.array(text, { maxLength: 5 }),
    fc.constant(undefined),
    fc.record({
      speed: fc.double(),
      rods: fc.array(fc.record({ place: text, lineOut: fc.double() }), { maxLength: 3 }),
    }),
  );
  fc.assert(
    fc.property(fc.constantFrom(...kinds), fc.constantFrom(...names), value, (kind, name, one) => {
      const set = { ...fitting(kind, { [name]: one }), tally: 1 };
      const trip = kind === "trip" ? { record: (base as { trip: string }).trip } : {};
      const fault = faultOf({ ...base, ...trip, kind, set });
      // Of another type than the field it stays what it was, and is told.
      if (fault) expect(fault).toMatch(/^has no \w+ for /);
    }),
    { numRuns: 200 },
  );
});
