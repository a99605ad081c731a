import { afterEach, expect, it, vi } from "vitest";
import { text } from "../../../base/text/text";
import { type OwnRule, type RuleSet, rules } from "../../../state/rules/rules";
import { cautionWords } from "./caution";

const t = text.fish.rules;
const rule = (waters: string, checkedOn: string, own = false) => ({ waters, checkedOn, own }) as OwnRule;

/** What is said of a set at noon of a day, with the boat on the ocean. */
function said(...all: RuleSet["rules"]): string {
  const set = { id: "s", name: "n", asOf: "2024-01", rules: all };
  rules.set({ sets: [set], set: "s", waters: "ocean" });
  return cautionWords(set);
}

afterEach(() => vi.useRealTimers());

it("tells when rules were looked up also on later days, and of other waters nothing", () => {
  vi.useFakeTimers({ now: new Date(2026, 10, 29, 12) });
  const bay = rule("bay", "2024-01");
  expect(said(rule("ocean", "2024-01"), bay)).toBe(t.caution("2024-01"));
  expect(said(rule("ocean", "2026-11-29"), bay)).toBe(t.lookedUp);
  expect(said(rule("ocean", "2026-11-28"), bay)).toBe(t.cautionChecked("2026-11-28"));
  expect(said(rule("ocean", "2026-11-28", true), bay)).toBe(t.cautionOwn("2026-11-28"));
});

it("goes by the rule of these waters that was looked up longest ago, or never", () => {
  vi.useFakeTimers({ now: new Date(2026, 10, 29, 12) });
  expect(said(rule("ocean", "2026-11-28"), rule("ocean", "2026-10-02"))).toBe(t.cautionChecked("2026-10-02"));
  expect(said(rule("ocean", "2026-11-28"), rule("ocean", ""))).toBe(t.caution("2024-01"));
});
