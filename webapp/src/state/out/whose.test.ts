/** Whose a fish is where nobody is named with it. Our own rule: with one person fishing it can be nobody else's. */
import { expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { keptToday } from "../fish/count";
import { onlyOne } from "../notes/whose";
import { fishOfPerson } from "./keepsake";
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
