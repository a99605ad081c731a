import "fake-indexeddb/auto";
import { beforeEach, expect, it } from "vitest";
import { en } from "../../base/text/spoken/en";
import { you } from "../log/log";
import { startTrip } from "../log/saying/say";
import { type RuleSet, rules } from "./rules";
import { fitsTrip, loadSets, mayGive, rulesFile } from "./share";

const t = en.fish.share;

const set = (name: string): RuleSet => ({
  id: "mine",
  name,
  asOf: "2026",
  rules: [
    {
      id: "r",
      own: true,
      species: "striped bass",
      waters: "bay",
      from: { month: 4, day: 1 },
      to: { month: 11, day: 30 },
      min: 0.7112,
      minKept: true,
      max: 0.7874,
      maxKept: false,
      bags: [{ count: 1, per: "person" }],
      noFishing: false,
      gear: "",
      note: "",
      source: "an agency",
      statesOwn: false,
      validFrom: "2026-04-01",
      validTo: "2026-12-31",
      checkedOn: "2026-05-30",
    },
  ],
});

beforeEach(() => {
  rules.signal.value = { sets: [set("mine")], set: "mine", waters: "bay" };
});

it("a set comes back from a file as it was, beside those that are here, and is used", () => {
  expect(loadSets(rulesFile(set("Bay, striped bass")))).toBe(t.loaded("Bay, striped bass"));
  const [mine, came] = rules.value.sets;
  expect([mine?.id, mine?.name, rules.value.sets.length]).toEqual(["mine", "mine", 2]);
  expect(rules.value.set).toBe(came?.id);
  expect(came?.id).not.toBe("mine");
  expect({ ...came?.rules[0], id: "r", own: true }).toEqual(set("").rules[0]);
  // Loaded once more it is not there twice.
  loadSets(rulesFile(set("Bay, striped bass")));
  expect(rules.value.sets.length).toBe(2);
});

it("a file that is no set of rules, of a later version, or spoilt, changes nothing and says so", () => {
  const spoil = (change: (file: { sets: { rules: object[] }[] }) => void) => {
    const file = JSON.parse(rulesFile(set("x")));
    change(file);
    return JSON.stringify(file);
  };
  const bad: [string, string][] = [
    ["", t.notRules],
    ["null", t.notRules],
    ['{"format":"wirewake-notes"}', t.notRules],
    [spoil((file) => Object.assign(file, { version: 2 })), t.later],
    [spoil((file) => Object.assign(file, { sets: [] })), t.broken],
    [spoil((file) => Object.assign(file.sets[0] ?? {}, { rules: [] })), t.broken],
    [spoil((file) => Object.assign(file.sets[0]?.rules[0] ?? {}, { min: -1 })), t.broken],
    [spoil((file) => file.sets[0]?.rules.push({})), t.broken],
    [spoil((file) => Object.assign(file.sets[0] ?? {}, { rules: "all" })), t.broken],
  ];
  for (const [content, said] of bad) expect([content, loadSets(content)]).toEqual([content, said]);
  expect(rules.value.sets.length).toBe(1);
});

it("an earlier version's file, without what came later, is read", () => {
  const file = JSON.parse(rulesFile(set("old")));
  delete file.sets[0].rules[0].validTo;
  delete file.sets[0].rules[0].statesOwn;
  expect(loadSets(JSON.stringify(file))).toBe(t.loaded("old"));
  expect(rules.value.sets.at(-1)?.rules[0]).toMatchObject({ validTo: "", statesOwn: false });
});

it("a set too large for an entry is not offered to the trip", () => {
  const one = set("large");
  expect(fitsTrip(one)).toBe(true);
  const note = "é".repeat(500);
  expect(fitsTrip({ ...one, rules: Array(20).fill({ ...one.rules[0], note }) })).toBe(false);
});

it("a set is given to the trip that runs, by whoever may change what is the crew's", () => {
  expect(mayGive()).toBe(false);
  startTrip({});
  expect(mayGive()).toBe(true);
  you.value = { device: "d", name: "Gus", role: "guest", may: [] };
  expect(mayGive()).toBe(false);
  you.value = { device: "d", name: "Ann", role: "mate", may: ["crew"] };
  expect(mayGive()).toBe(true);
});
