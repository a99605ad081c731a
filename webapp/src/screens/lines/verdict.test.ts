import { expect, it } from "vitest";
import type { RodAnswer } from "../../base/desk/types/towline.gen";
import { kindOf } from "./verdict";

const answer = (inBand: number, risky = false) =>
  ({ verdict: "in the band", likely: inBand > 0.5, risky, odds: { inBand } }) as RodAnswer;

it("gives odds that read the same the same colour", () => {
  // Both are said as 5 in 10.
  expect(kindOf(answer(0.49))).toBe("off");
  expect(kindOf(answer(0.51))).toBe("off");
  expect(kindOf(answer(0.56))).toBe("good");
  expect(kindOf(answer(0.9, true))).toBe("off");
});
