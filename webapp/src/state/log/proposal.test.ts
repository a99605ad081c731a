import { expect, it } from "vitest";
import type { Fields, Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { decisionsOf, proposalsFor } from "./proposal";

let n = 0;
const entry = (record: string, kind: string, set: Fields): Stored => ({
  ...{ id: `e${++n}`, record, kind, trip: "t", prev: [], set, at: 1e12, n, by: "gus", byName: "Gus" },
});

const proposed = (...says: unknown[]) => {
  const records = foldAll([
    entry("r", "note", { text: "seen" }),
    ...says.map((one, i) => entry(`p${i}`, "proposal", { of: "r", says: one })),
  ]);
  const [note] = records;
  if (!note) throw new Error("no record");
  return proposalsFor(note, records).map(({ unfit }) => unfit);
};

it("what the record could not hold is told from what it could", () => {
  expect(proposed({ text: "other" }, { text: null }, { struck: true }, { newer: { a: 1 } })).toEqual(
    Array(4).fill(false),
  );
  expect(proposed({ text: { a: 1 } }, { text: 5 }, {}, { struck: null }, { lat: 91 })).toEqual(
    Array(5).fill(true),
  );
});

it("what is no fields at all is no proposal", () => {
  expect(proposed(5, "x", [], null)).toEqual([]);
});

const written = (
  id: string,
  record: string,
  kind: string,
  by: string,
  set: Fields,
  prev: string[],
): Stored => ({
  ...{ id, record, kind, trip: "t", prev, set, at: 1, n: 1 },
  ...{ by, byName: by },
});

it("tells of a proposal that one left and another took, neither knowing of the other, that both did", () => {
  const [note, other, ...more] = foldAll([
    written("1", "note", "note", "ben", { text: "slack at two" }, []),
    written("2", "other", "note", "ben", { text: "fog" }, []),
    written("3", "p", "proposal", "gus", { of: "note", says: { text: "slack at three" } }, []),
    written("4", "p", "proposal", "ben", { taken: false }, ["3"]),
    written("5", "p", "proposal", "ann", { taken: true }, ["3"]),
  ]);
  if (!note || !other) throw new Error("unreadable");
  const said = decisionsOf(note, more).map(({ proposal, entry: { by }, taken }) => [proposal.id, by, taken]);
  expect(said).toEqual([
    ["p", "ben", false],
    ["p", "ann", true],
  ]);
  expect(decisionsOf(other, more)).toEqual([]);
  expect(proposalsFor(note, more)).toEqual([]);
});
