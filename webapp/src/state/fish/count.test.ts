import { describe, expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { boats, receive, start } from "../log/saying/started";
import { countOf, keptToday } from "./count";
import type { Fish } from "./fishes";

const bass = "striped bass";
const noon = new Date(2026, 6, 4, 12).getTime();
const hour = 3600_000;

let n = 0;
const entry = (record: string, kind: string, at: number, says: object): Stored => ({
  id: `e${++n}`,
  record,
  kind,
  trip: "t",
  prev: [],
  at,
  n,
  own: true,
  ...says,
});
const kept = (record: string, person: string | undefined, at = noon - hour) =>
  entry(record, "mark", at, { set: { fish: bass, fate: "kept", ...(person && { person }) } });

const fish = (patch: Partial<Fish>): Fish => ({
  id: "f",
  up: { wall: noon - hour, run: 0 },
  step: "over",
  ticks: [],
  species: bass,
  length: 0.75,
  fate: "kept",
  person: "",
  out: null,
  bled: null,
  iced: null,
  note: "",
  began: false,
  ...patch,
});

const count = (entries: Stored[], fishes: Fish[] = [], person = "Ann") =>
  countOf(keptToday(foldAll(entries), fishes, noon), bass, person);

describe("the bag of today", () => {
  it("counts each person's kept fish and all together", () => {
    const all = [kept("a", "Ann"), kept("b", "Ben"), kept("c", "Ann"), kept("d", undefined)];
    expect(count(all)).toEqual({ byPerson: 2, byBoat: 4 });
    expect(count(all, [], "Ben")).toEqual({ byPerson: 1, byBoat: 4 });
    expect(count(all, [], "Cem")).toEqual({ byPerson: 0, byBoat: 4 });
  });

  it("leaves out what was let go, struck out, or taken back", () => {
    const all = [
      entry("a", "mark", noon, { set: { fish: bass, fate: "released", person: "Ann" } }),
      kept("b", "Ann"),
      entry("b", "mark", noon, { strike: true }),
      kept("c", "Ann"),
      entry("c", "mark", noon, { set: { fate: null } }),
      entry("d", "mark", noon, { set: {} }),
    ];
    expect(count(all)).toEqual({ byPerson: 0, byBoat: 0 });
  });

  it("leaves out yesterday's fish of a trip that nobody closed, by when it was told that they are kept", () => {
    const yesterday = kept("a", "Ann", noon - 24 * hour);
    const hookedBeforeMidnight = [
      entry("b", "mark", noon - 12.5 * hour, { set: {} }),
      entry("b", "mark", noon - 11.9 * hour, { set: { fish: bass, fate: "kept", person: "Ann" } }),
    ];
    expect(count([yesterday, ...hookedBeforeMidnight])).toEqual({ byPerson: 1, byBoat: 1 });
  });

  it("counts a fish that another phone's clock has in the future: rather one too many", () => {
    expect(count([kept("a", "Ann", noon + 30 * hour)])).toEqual({ byPerson: 1, byBoat: 1 });
  });

  it("counts other kinds of fish apart, and fish of no kind as any kind", () => {
    const other = entry("a", "mark", noon, { set: { fish: "bluefish", fate: "kept", person: "Ann" } });
    const unknown = entry("b", "mark", noon, { set: { fate: "kept", person: "Ann" } });
    expect(count([other, unknown])).toEqual({ byPerson: 1, byBoat: 1 });
  });

  it("counts fish that only this phone knows, and none twice", () => {
    const noted = fish({ id: "x", note: "t.a", person: "Ann" });
    const ofAnotherTrip = fish({ id: "y", note: "u.z", person: "Ann" });
    const withoutTrip = fish({ id: "z" });
    const old = fish({ id: "o", up: { wall: noon - 20 * hour, run: 0 } });
    const gone = fish({ id: "g", fate: "released" });
    expect(count([kept("a", "Ann")], [noted, ofAnotherTrip, withoutTrip, old, gone])).toEqual({
      byPerson: 2,
      byBoat: 3,
    });
  });

  it("follows the note where it says otherwise than this phone", () => {
    const struck = [kept("a", "Ann"), entry("a", "mark", noon, { strike: true })];
    expect(count(struck, [fish({ note: "t.a", person: "Ann" })])).toEqual({ byPerson: 0, byBoat: 0 });
  });

  it("takes what was noted of a bag where it tells of more, and never adds the two", () => {
    const bag = (fishes: number) =>
      entry(`bag${fishes}`, "bag", noon, { set: { fish: bass, count: fishes, person: "Ann" } });
    expect(count([kept("a", "Ann"), bag(3)])).toEqual({ byPerson: 3, byBoat: 3 });
    expect(count([kept("a", "Ann"), kept("b", "Ann"), bag(1)])).toEqual({ byPerson: 2, byBoat: 2 });
    expect(count([bag(2)])).toEqual({ byPerson: 2, byBoat: 2 });
  });
});

it("one person has one bag, however the name was typed", () => {
  const bag = keptToday(
    foldAll([
      kept("a", "max "),
      kept("b", "Max"),
      entry("c", "bag", noon, { set: { fish: bass, count: 1, person: "MAX" } }),
    ]),
    [fish({ person: " max" })],
    noon,
  );
  expect(bag).toEqual([{ species: bass, person: "max", count: 3 }]);
  expect(countOf(bag, bass, "max")).toEqual({ byPerson: 3, byBoat: 3 });
});

const person = (name: string, more: object = {}) => ({
  kind: "person",
  set: { name },
  at: Date.now(),
  ...more,
});

it("a guest's phone counts as one who fishes, whomever else it names; all of them can be chosen", async () => {
  const log = await start();
  const { anglers, fishing } = await import("./people");
  const crew = ["ben"];
  await receive(log, { crew, guests: ["gus"] }, [
    { record: boats, kind: "trip", set: { opened: Date.now(), closed: null, name: "" }, at: Date.now() },
    person("Ann"),
    person("Ben"),
  ]);
  await log.noteIn(boats);
  await log.show(boats);
  expect(fishing()).toBe(2);
  const guest = { by: "gus", byName: "Gus" };
  await receive(log, { crew, guests: ["gus"] }, [person("Gus", guest)]);
  expect(fishing()).toBe(3);
  expect(anglers()).toEqual(["Ann", "Ben", "Gus"]);
  await receive(log, { crew, guests: ["gus"] }, [person("P1", guest), person("P2", guest)]);
  // Nobody knows how many fish until the crew says so.
  expect(fishing()).toBe(0);
  expect(anglers()).toEqual(["Ann", "Ben", "Gus", "P1", "P2", ""]);
  const { setHeads } = await import("../crew/aboard");
  setHeads({ aboard: 3 });
  expect(fishing()).toBe(3);
});
