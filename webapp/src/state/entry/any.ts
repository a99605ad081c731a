/**
 * Any entry that the contract allows, for the tests: at the bounds of every field, of kinds and fields that nobody
 * knows, with names that every object has. And any that an older server may have taken.
 */
import fc from "fast-check";
import { contract } from "./contract.gen";
import type { Entry } from "./entry";
import { uuid } from "./uuid";

interface Field {
  is: string;
  min?: number;
  max?: number;
  most?: number;
  items?: number;
}

/** What every object of JavaScript has: good words, and bad keys. */
export const inherited = ["__proto__", "constructor", "prototype", "toString", "valueOf", "hasOwnProperty"];

const odd = ["", " ", "x", "<b>bold</b>", "é", "😀", "👩", "0", "NaN", "null", "kept", "lost", ...inherited];

const text = (most: number, lines: boolean) =>
  fc.oneof(
    fc.constantFrom(...odd),
    fc.constant("W".repeat(most)),
    fc.string({ maxLength: Math.min(most, 40) }),
    ...(lines ? [fc.constant("a\nb\tc\n"), fc.constant("\u200f\u05d0\u200d")] : []),
  );

const number = (min: number, max: number) =>
  fc.oneof(fc.constantFrom(min, max, 0, Math.min(1, max)), fc.double({ min, max, noNaN: true }));

const clamped = ({ min = 0, max = 0 }: Field) => number(min, max).map((x) => Math.min(Math.max(x, min), max));

const name = fc.constantFrom(
  "a",
  "rods",
  "place",
  "speed",
  "lineOut",
  "rod",
  "name",
  "items",
  "rules",
  "then",
  "toJSON",
);

/** Any JSON of no more than this depth. */
const anything = (depth: number): fc.Arbitrary<unknown> =>
  fc.oneof(
    { weight: 3, arbitrary: fc.constantFrom(null, true, false, 0, -1, 1e15, -1e15, 5e-324, ...odd) },
    ...(depth > 0
      ? [
          { weight: 1, arbitrary: fc.array(fc.constantFrom(null, 1, "x", [], {}), { maxLength: 5 }) },
          {
            weight: 1,
            arbitrary: fc.dictionary(name, fc.constantFrom(null, 1e15, -5, "x", [], {}), { maxKeys: 5 }),
          },
          {
            weight: 1,
            arbitrary: fc.record({
              speed: fc.constantFrom(-1e15, 0, 1.5, "fast"),
              bottom: fc.constantFrom(1e15, 15, null),
              rods: fc.array(
                fc.constantFrom(null, {}, { place: "p", rig: "r", lure: "l", lineOut: -1e15, drail: 1e15 }),
                {
                  maxLength: 12,
                },
              ),
            }),
          },
          { weight: 1, arbitrary: fc.integer({ min: 1, max: depth }).map((deep) => nested(deep)) },
        ]
      : []),
  );

const nested = (depth: number): unknown =>
  depth === 0 ? null : depth % 2 ? [nested(depth - 1)] : { a: nested(depth - 1) };

function value(field: Field | undefined): fc.Arbitrary<unknown> {
  const { time } = contract.entry;
  switch (field?.is) {
    case "number":
      return clamped(field);
    case "whole":
      return clamped(field).map(Math.round);
    case "time":
      return number(time.min, time.max).map(Math.round);
    case "flag":
      return fc.boolean();
    case "line":
      return text(field.most ?? 0, false);
    case "text":
      return text(field.most ?? 0, true);
    case "lines":
      return fc.array(text(20, false), { maxLength: field.items ?? 0 });
    case "sha256":
      return fc.constantFrom("0a".repeat(32), "f".repeat(64));
    case "record":
      return fc.constantFrom("5b0e8c1a-42d7-4d6f-9a53-0c1f2e3d4b5a");
    default:
      return anything(contract.value.depth);
  }
}

const kinds: { [kind: string]: { [name: string]: Field } } = contract.kinds;
const any: { [name: string]: Field } = contract.any;

function setOf(kind: string): fc.Arbitrary<{ [field: string]: unknown }> {
  const fields = { ...any, ...(kinds[kind] ?? {}), more: undefined, opened2: undefined, items2: undefined };
  const orNull = (name: string, field: Field | undefined) =>
    name === "struck"
      ? value(field)
      : fc.oneof({ weight: 9, arbitrary: value(field) }, { weight: 1, arbitrary: fc.constant(null) });
  return fc
    .record(Object.fromEntries(Object.entries(fields).map(([name, field]) => [name, orNull(name, field)])), {
      requiredKeys: [],
    })
    .filter((set) => Object.keys(set).length > 0);
}

/** Entries of these trips, about a few records of each kind that each trip has. */
export function anyEntry(trips: readonly string[]): fc.Arbitrary<Entry> {
  const records = new Map<string, string[]>();
  const recordsOf = (trip: string, kind: string): string[] => {
    const key = trip + kind;
    const known = records.get(key) ?? (kind === "trip" ? [trip] : Array.from({ length: 25 }, () => uuid()));
    records.set(key, known);
    return known;
  };
  const ids: string[] = [];
  return fc.constantFrom(...trips).chain((trip) =>
    fc.constantFrom(...Object.keys(kinds), "kite", "then", "k".repeat(contract.entry.kind)).chain((kind) =>
      fc
        .record({
          record: fc.constantFrom(...recordsOf(trip, kind)),
          set: fc.oneof(
            { weight: 12, arbitrary: setOf(kind) },
            { weight: 1, arbitrary: fc.constant(undefined) },
          ),
          at: number(contract.entry.time.min, contract.entry.time.max).map(Math.round),
          n: number(contract.entry.n.min, contract.entry.n.max).map((n) => Math.max(1, Math.round(n))),
          back: fc.array(fc.nat(40), { maxLength: 4 }),
        })
        .map(({ record, set, at, n, back }): Entry => {
          const id = uuid();
          const prev = back.flatMap((i) => ids[ids.length - 1 - i] ?? []);
          ids.push(id);
          return { id, record, kind, trip, prev, ...(set ? { set } : { strike: true }), at, n };
        }),
    ),
  );
}

/** What an older server took, or another one may send: each breaks the contract in its own way. */
export function unkept(trip: string): Entry[] {
  const one = (change: object): Entry => ({
    ...{ id: uuid(), record: uuid(), kind: "note", trip, prev: [], set: { text: "x" }, at: 1, n: 1 },
    ...change,
  });
  return [
    one({ at: -1 }),
    one({ at: -8.64e15 }),
    one({ kind: "constructor" }),
    one({ kind: "toString" }),
    one({ set: { more: JSON.parse(`${"[".repeat(4000)}${"]".repeat(4000)}`) } }),
    one({ kind: "trip", record: trip, set: { opened: 1e300 } }),
    one({ set: JSON.parse('{"__proto__": {"a": 1}}') }),
    one({ n: 2 ** 53 - 1 }),
    one({ set: { text: "cut \ud83d" } }),
    one({ kind: "person", set: { name: "\u202eevil" } }),
    one({ kind: "mark", set: { lat: 1e9, lon: "x" } }),
  ];
}
