import { beforeEach, expect, it } from "vitest";
import type { Setting } from "../../../base/desk/types/plan.gen";
import type { RodAnswer } from "../../../base/desk/types/towline.gen";
import { settings } from "../../../base/units/settings";
import { first, lessWords, speedWords } from "./words";

const kn = 1852 / 3600;
const plain = (words?: string) => words?.replace(/[\u00a0\u202f]/g, " ");

beforeEach(() => {
  const units = { depth: "ft", line: "ft", weight: "oz", pull: "lb", temperature: "°F" } as const;
  settings.signal.value = { units, cautionsRead: true };
});

it("a plan is told for its own speed, and Lines' speed as Lines writes it", () => {
  expect(plain(speedWords(3.25 * kn))).toBe("3.25 kn");
  expect(plain(speedWords(3.25 * kn, 3.25 * kn))).toBe("3.25 kn");
  expect(plain(speedWords(3.9 * kn, 3.46 * kn))).toBe("3.5 kn");
  expect(plain(first(3.9 * kn, 3.46 * kn))).toBe("Lines has 3.9 kn: go 3.5 kn first.");
  expect(first(3.25 * kn, 3.25 * kn)).toBeUndefined();
});

it("a plan that rides less often where wanted than the rod does now says so", () => {
  const odds = (inBand: number, touch: number) => ({ odds: { high: 0, inBand, deep: 0, touch } });
  const plan = odds(0.2, 0.1) as Setting;
  expect(lessWords(plan, odds(0.3, 0.25) as RodAnswer)).toBe(
    "As it is set now: Where wanted 3 in 10, touches 3 in 10.",
  );
  expect(lessWords(plan, odds(0.22, 0.25) as RodAnswer)).toBeUndefined();
  expect(lessWords(plan, undefined)).toBeUndefined();
});
