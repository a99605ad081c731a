import "fake-indexeddb/auto";
import { expect, it } from "vitest";
import type { Old } from "../../base/desk/types/fish.gen";
import { addSet, stillHolds } from "./change";
import { isoDay, type OwnRule, rules } from "./rules";

const dates = { validFrom: "2024-05-01", validTo: "31.12.2023", checkedOn: "2024-05-01" };

/** The dates of a rule that was looked up, after it was not gone by for a reason. */
function lookedUp(why: Old, date: string): Partial<OwnRule> {
  rules.set({ ...rules.value, sets: [] });
  const id = addSet();
  const [set] = rules.value.sets.map((one) => ({
    ...one,
    rules: one.rules.map((rule) => ({ ...rule, ...dates })),
  }));
  if (set?.id !== id) throw new Error("no set was begun");
  rules.set({ ...rules.value, sets: [set] });
  stillHolds(set, [{ rule: 0, why, date }]);
  const [{ validFrom, validTo, checkedOn }] = rules.value.sets.flatMap((one) => one.rules) as [OwnRule];
  return { validFrom, validTo, checkedOn };
}

it("what spoke against a rule that was looked up goes, and no other date", () => {
  const today = isoDay();
  expect(lookedUp("date not readable", "31.12.2023")).toEqual({ ...dates, validTo: "", checkedOn: today });
  expect(lookedUp("past its date", "31.12.2023")).toEqual({ ...dates, validTo: "", checkedOn: today });
  expect(lookedUp("not in force yet", "2024-05-01")).toEqual({ ...dates, validFrom: "", checkedOn: today });
  expect(lookedUp("not checked for a year", "2024-05-01")).toEqual({ ...dates, checkedOn: today });
});
