import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { held, type Stored } from "../../entry/entry";
import { uuid } from "../../entry/uuid";
import { fromFile, toFile, type Unfit } from "./file";

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
const whyNot = (text: string) => {
  try {
    fromFile(text);
    return undefined;
  } catch (fault) {
    return (fault as Unfit).why;
  }
};

const ben = "01997c3e-9b2a-7c41-8f0e-000000000b0b";

it("brings back what was saved, with who wrote it, and nothing of where it stood with the server", () => {
  const own = entry({ own: true, out: [1, 1], set: { a: [1, { b: null }] } });
  const other = entry({
    no: 7,
    by: ben,
    byName: "Ben's phone",
    via: "cy",
    viaName: "Cy's phone",
    mark: "m".repeat(130),
  });
  const { own: _own, out: _out, ...said } = own;
  const { no: _no, via: _via, viaName: _viaName, ...others } = other;
  expect(fromFile(toFile([own, other], 5))).toEqual([said, others]);
  // Of a season, indentation is a good part of what a file may hold.
  expect(toFile([own, other], 5)).not.toContain("\n");
});

it("brings back what cannot be read as it came", () => {
  const odd = held({ ...entry({ no: 7, by: ben, byName: "Ben's phone" }), at: -1, kind: "toString" });
  const { no: _no, ...filed } = odd;
  expect(fromFile(toFile([odd, entry()], 5))[0]).toEqual(filed);
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
      [{ record: 5 }, "has no UUID for record"],
      [{ trip: null }, "has no UUID for trip"],
      [{ mark: "x" }, "has no mark that is one"],
      [{ by: "ann" }, "does not say who wrote it"],
      [{ by: ben, byName: "x".repeat(99) }, "does not say who wrote it"],
      [{ set: { text: "x".repeat(100_000) } }, "is far larger than a note"],
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

  it("is told where what it holds lies too deep to be handed on", () => {
    const bad = (depth: number) =>
      file({ entries: [entry(), "HERE"] }).replace(
        '"HERE"',
        JSON.stringify(entry()).replace('"slack tide"', "[".repeat(depth) + "]".repeat(depth)),
      );
    expect(whyNot(bad(4000))).toBeUndefined();
    for (const depth of [6000, 100_000])
      expect(whyNot(bad(depth))).toEqual({
        code: "entry",
        place: 2,
        fault: "has lists too deep in each other",
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
