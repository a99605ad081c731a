/** Whose a fish is where nobody is named with it. Our own rule: with one person fishing it can be nobody else's. */
import { expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { keptToday } from "../fish/count";
import { you } from "../log/log";
import { isMine, mineFirst } from "../log/names";
import { onlyOne } from "../notes/whose";
import { fishOfPerson, peopleOf } from "./keepsake";
import { landingsOf } from "./papers";

const noon = new Date(2026, 6, 4, 12).getTime();
const say = (n: number, record: string, kind: string, set: { [field: string]: unknown }): Stored => ({
  ...{ id: `e${n}`, record, kind, trip: "t", prev: [], set },
  ...{ at: noon + n, n, own: true },
});
const trip = {
  ...{ trip: "t", opened: noon, last: noon, closed: null, closedBy: null, struck: false, parts: ["t"] },
  ...{ name: "", ground: "", hookups: 1 },
} as unknown as Parameters<typeof landingsOf>[0];

const all = (fishing: { [field: string]: unknown }, ...names: string[]) =>
  foldAll([
    say(1, "t", "trip", { opened: noon, ...fishing }),
    say(2, "m", "mark", { fish: "striped bass", fate: "kept" }),
    ...names.map((name, i) => say(3 + i, `p${i}`, "person", { name })),
  ]);

const told = (records: ReturnType<typeof all>, name: string) => [
  keptToday(records, [], noon, () => onlyOne(records)).map(({ person }) => person),
  landingsOf(trip, records).flatMap(({ fish }) => fish.map(({ person }) => person)),
  fishOfPerson(records, name).length,
];

it("one person has one count: in the bag, in the papers and on the page to take home", () => {
  expect(told(all({ fishing: 1 }, "Ann"), "Ann")).toEqual([["Ann"], ["Ann"], 1]);
  expect(told(all({ aboard: 1 }, "Ann"), "Ann")).toEqual([["Ann"], ["Ann"], 1]);
});

it("nobody is guessed where more may fish, or nobody has said how many", () => {
  for (const records of [all({ fishing: 2 }, "Ann"), all({}, "Ann"), all({ fishing: 1 }, "Ann", "Ben")])
    expect(told(records, "Ann")).toEqual([[""], [""], 0]);
});

it("one person has one name, however it was typed: aboard, in the papers and on the page to take home", () => {
  const records = foldAll([
    say(1, "t", "trip", { opened: noon }),
    say(2, "m", "mark", { fish: "striped bass", fate: "kept", person: "max " }),
    say(3, "k", "mark", { fish: "striped bass", fate: "kept", person: "Max" }),
    say(4, "p", "person", { name: "Max" }),
    say(5, "q", "person", { name: "MAX " }),
  ]);
  expect(peopleOf(records)).toEqual(["Max"]);
  expect(fishOfPerson(records, "Max").length).toBe(2);
  const [day] = landingsOf(trip, records);
  expect([day?.named, day?.fish.map(({ person, count }) => [person, count])]).toEqual([1, [["Max", 2]]]);
  expect(
    onlyOne(
      foldAll([
        say(1, "t", "trip", { fishing: 1 }),
        say(2, "p", "person", { name: "Max " }),
        say(3, "q", "person", { name: "max" }),
      ]),
    ),
  ).toBe("Max");
});

it("begins with whoever this phone is called after, and with nobody's name of its own where it is nobody's", () => {
  expect(mineFirst(["Ann", "Gus"], true)).toEqual(["Ann", "Gus"]);
  you.value = { device: "me", name: "gus ", role: "guest", may: [] };
  expect(mineFirst(["Ann", "Gus"], true)).toEqual(["Gus", "Ann"]);
  expect(mineFirst(["Ann"], true)).toEqual(["gus", "Ann"]);
  expect(mineFirst(["Ann"], false)).toEqual(["Ann"]);
  expect([isMine("Gus"), isMine("Ann"), isMine("")]).toEqual([true, false, false]);
  you.value = undefined;
});
