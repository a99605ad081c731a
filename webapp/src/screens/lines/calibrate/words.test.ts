import { expect, it } from "vitest";
import type { Judged } from "../../../base/desk/types/calibrate.gen";
import { text } from "../../../base/text/text";
import type { Touch } from "../../../state/calibrate/observe";
import { verdictWords } from "./words";

const touch = { record: { kind: "touch" }, seen: {} } as Touch;
const judged = (verdict: Judged["verdict"]) => ({ verdict, off: 1 }) as Judged;
const { verdicts } = text.calibrate;

it("a touch agrees with others only where there are others", () => {
  expect(verdictWords(touch, judged("agrees"), 1)).toBe(verdicts.alone);
  expect(verdictWords(touch, judged("agrees"), 2)).toBe(verdicts.agrees);
  expect(verdictWords(touch, judged("cannot be computed"), 1)).toBe(verdicts["cannot be computed"]);
  expect(verdictWords(touch, undefined, 1)).toBe(verdicts.uncounted);
});
