import "fake-indexeddb/auto";
import { afterEach, expect, it } from "vitest";
import type { Fields, Stored } from "../../entry/entry";
import { foldAll } from "../../entry/fold";
import { you } from "../log";
import { decisionsOf, proposalsFor } from "./proposal";

afterEach(() => {
  you.value = undefined;
});

let n = 0;
const entry = (record: string, kind: string, set: Fields): Stored => ({
  ...{ id: `e${++n}`, record, kind, trip: "t", prev: [], set, at: 1e12, n, by: "gus", byName: "Gus" },
});

const proposed = (...says: unknown[]) => proposedFor("note", ...says);

const proposedFor = (kind: string, ...says: unknown[]) => {
  const records = foldAll([
    entry("r", kind, {}),
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

it("what only the crew says of a trip cannot be taken from a proposal, alone or beside what can", () => {
  expect(proposedFor("trip", { ground: "ledge" }, { wind: null })).toEqual([false, false]);
  const other = "c2a9f0d4-7b1e-8f38-8e65-9d0b1a2c3f4e";
  expect(
    proposedFor(
      "trip",
      { closed: 1e12 },
      { closed: null },
      { apart: true },
      { ground: "a", into: other },
      { opened: 1 },
    ),
  ).toEqual(Array(5).fill(true));
  // Of other kinds it is a field like any that a newer app may have.
  expect(proposedFor("note", { closed: 1e12 })).toEqual([false]);
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

it("what was decided holds for what was read: what was proposed meanwhile is open again", () => {
  const of = (...more: Stored[]) => {
    const [note, ...records] = foldAll([
      written("1", "note", "note", "ben", { text: "slack at two" }, []),
      written("2", "p", "proposal", "gus", { of: "note", says: { text: "at three" } }, []),
      ...more,
    ]);
    return note ? proposalsFor(note, [note, ...records]).map(({ says }) => says.text) : ["no note"];
  };
  const taken = written("3", "p", "proposal", "ben", { taken: true }, ["2"]);
  const newer = written("4", "p", "proposal", "gus", { says: { text: "at four" } }, ["2"]);
  expect(of()).toEqual(["at three"]);
  expect(of(taken)).toEqual([]);
  expect(of(taken, newer)).toEqual(["at four"]);
  // Whoever decides knows of both, even through other entries.
  const seen = written("5", "p", "proposal", "gus", { of: "note" }, ["3", "4"]);
  expect(of(taken, newer, seen, written("6", "p", "proposal", "ann", { taken: false }, ["5"]))).toEqual([]);
});

it("what a guest writes decides nothing, whoever brings it, and is told as nobody's decision", () => {
  you.value = { device: "sal", name: "Sal", role: "skipper", may: ["trips", "crew"], crew: ["sal", "ben"] };
  const told = (decision: Partial<Stored>) => {
    const [note, ...records] = foldAll([
      written("1", "note", "note", "ben", { text: "slack at two" }, []),
      written("2", "p", "proposal", "gus", { of: "note", says: { text: "at three" }, taken: true }, []),
      { ...written("3", "p", "proposal", "ben", { taken: true }, ["2"]), ...decision },
    ]);
    if (!note) throw new Error("unreadable");
    return [decisionsOf(note, records).length, proposalsFor(note, records).length];
  };
  expect(told({})).toEqual([1, 0]);
  expect(told({ own: true })).toEqual([1, 0]);
  expect(told({ by: "gus" })).toEqual([0, 1]);
  expect(told({ via: "gus" })).toEqual([0, 1]);
  // On the guest's own phone, too.
  you.value = { device: "gus", name: "Gus", role: "guest", trip: "t", may: [], crew: ["sal", "ben"] };
  expect(told({ own: true })).toEqual([0, 1]);
  expect(told({})).toEqual([1, 0]);
});
