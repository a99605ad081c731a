import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Stored } from "./entry";
import { fromFile, toFile, type Unfit } from "./file";
import { uuid } from "./uuid";

const trip = uuid();
const entry = (more: Partial<Stored> = {}): Stored => ({
  id: uuid(),
  record: uuid(),
  kind: "note",
  trip,
  prev: [],
  set: { text: "slack tide" },
  at: 1,
  n: 1,
  ...more,
});
const ann = { device: "ann", name: "Ann's phone" };
const whyNot = (text: string) => {
  try {
    fromFile(text);
    return undefined;
  } catch (fault) {
    return (fault as Unfit).why;
  }
};

it("brings back what was saved, with who wrote it, and nothing of where it stood with the server", () => {
  const own = entry({ own: true, out: [1, 1], set: { a: [1, { b: null }] } });
  const other = entry({ no: 7, by: "ben", byName: "Ben's phone", via: "cy", viaName: "Cy's phone" });
  const { own: _own, out: _out, ...said } = own;
  const { no: _no, via: _via, viaName: _viaName, ...others } = other;
  expect(fromFile(toFile([own, other], 5, ann))).toEqual([
    { ...said, by: "ann", byName: "Ann's phone" },
    others,
  ]);
  expect(fromFile(toFile([own], 5))).toEqual([said]);
});

describe("a file that is not ours", () => {
  const file = (changes: object) => JSON.stringify({ ...JSON.parse(toFile([entry()], 5)), ...changes });

  it.each([
    ["no JSON", "GPX <gpx>", "unreadable"],
    ["empty", "", "unreadable"],
    ["a number", "7", "other"],
    ["null", "null", "other"],
    ["another format", file({ format: "gpx" }), "other"],
    ["without a version", file({ version: undefined }), "other"],
    ["of a later version", file({ version: 2 }), "newer"],
    ["without entries", file({ entries: {} }), "other"],
    ["with no entry", file({ entries: [] }), "empty"],
  ])("%s is told as such", (_, text, code) => expect(whyNot(text)).toEqual({ code }));

  it("is told where it is wrong", () => {
    const good = entry();
    for (const [bad, fault] of [
      [{ id: "x" }, "has no UUID for id"],
      [{ kind: "<b>" }, "has no word for kind"],
      [{ prev: "all" }, "has a prev that is no list of UUIDs"],
      [{ at: -1 }, "has no time for at"],
      [{ n: 0.5 }, "has no count for n"],
      [{ set: undefined }, "has not exactly one of set and strike"],
      [{ set: {} }, "sets nothing"],
      [{ set: { struck: "yes" } }, "has a struck that is not yes or no"],
      [{ set: { text: "x".repeat(20_000) } }, "is larger than 16 KB"],
      [{ kind: "trip" }, "is not what its trip says of itself"],
      [{ by: "ann" }, "does not say who wrote it"],
      [{ by: "ann", byName: "x".repeat(99) }, "does not say who wrote it"],
    ] as const) {
      const text = file({ entries: [good, { ...good, ...bad }] });
      expect(whyNot(text)).toEqual({ code: "entry", place: 2, fault });
    }
    expect(whyNot(file({ entries: [good, null] }))).toEqual({
      code: "entry",
      place: 2,
      fault: "is not a record",
    });
  });

  it("whatever it is, it is refused for a reason and brings nothing along", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.json(),
          fc.json().map((j) => file({ entries: [JSON.parse(j)] })),
        ),
        (text) => {
          expect(whyNot(text)).toBeDefined();
        },
      ),
    );
    const hostile = `{"format":"wirewake-notes","version":1,"entries":[{"__proto__":{"own":true},"constructor":1}]}`;
    expect(whyNot(hostile)?.code).toBe("entry");
    expect(({} as { own?: true }).own).toBeUndefined();
  });
});

it("is refused before it is read when it is far too large", () => {
  expect(whyNot(" ".repeat(65 * 1024 * 1024))).toEqual({ code: "large" });
});
