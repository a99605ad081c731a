/** Touches, and what they teach, in words. */
import type { Judged, Try } from "../../../base/desk/types/calibrate.gen";
import { text } from "../../../base/text/text";
import { amount, bandNumbers, lineAmount } from "../../../base/units/show";
import { moment } from "../../../base/units/when";
import type { Touch } from "../../../state/calibrate/observe";
import { judged as judgedNow, judgedTaught, taughtHere, taughtInLog } from "../../../state/calibrate/touches";
import { number, words } from "../../../state/entry/fold";
import { gear, pick } from "../../../state/gear/gear";
import { placeName, rodWords } from "../../../state/gear/names";
import { spread } from "../../../state/spread/spread";

const t = text.calibrate;

/** “1 port rigger, 200 ft out in 47 ft, 14:02” */
export function touchWords({ record, at }: Touch): string {
  const [lineOut, bottom] = [number(record, "lineOut"), number(record, "bottom")];
  return [
    rodWords(words(record, "rod") ?? ""),
    lineOut !== undefined && bottom !== undefined && t.at(amount("line", lineOut), amount("depth", bottom)),
    moment(at),
  ]
    .filter(Boolean)
    .join(", ");
}

/** How many count: touches, and what was taught. */
export const howManyCount = (): number =>
  [...judgedNow.value.map(({ verdict }) => verdict), ...judgedTaught.value.values()].filter(
    ({ verdict }) => verdict !== "cannot be computed",
  ).length;

/** Of the only one nobody knows whether it agrees. */
export const plainVerdict = (verdict: Exclude<Judged["verdict"], "contradicts">, of: number): string =>
  verdict === "agrees" && of === 1 ? t.verdicts.alone : t.verdicts[verdict];

/** How it goes with all others; of: how many count. */
export function verdictWords({ record, seen }: Touch, judged: Judged | undefined, of: number): string {
  if (!seen) return t.verdicts.untold;
  if (!judged) return t.verdicts.uncounted;
  if (judged.verdict !== "contradicts") return plainVerdict(judged.verdict, of);
  const off = about(Math.abs(judged.off));
  if (record.kind === "clear") return t.verdicts.shouldHaveTouched(off);
  return judged.off > 0 ? t.verdicts.deeper(off) : t.verdicts.shallower(off);
}

const about = (depth: number) => {
  const { half, unit } = halfOf(2 * depth);
  return `${half}\u00a0${unit}`;
};

/** Half a width, with the rounding that the width allows. */
export const halfOf = (width: number) => bandNumbers("depth", { low: 0, mid: width / 2, high: width });

export const rodName = (index: number): string => {
  const rod = spread.value.rods[index];
  return text.notes.oneRod(index + 1, rod ? placeName(pick(gear.value.places, rod.place)) : "");
};

/** A touch to try, and what it would bring. */
export function tryWords(one: Try, width: number): string {
  const now = halfOf(width);
  const then = halfOf(one.width);
  if (one.kind !== "ticks" && one.kind !== "clear" && one.kind !== "known")
    return t.tryReading[one.kind](rodName(one.rod), `±\u202f${then.half}\u00a0${then.unit}`);
  return t.tryIt(
    rodName(one.rod),
    lineAmount(one.lineOut),
    one.drail > 0 ? amount("weight", one.drail) : undefined,
    now.half === then.half ? undefined : `±\u202f${now.half}`,
    `±\u202f${then.half}\u00a0${then.unit}`,
  );
}

/** How much counts in every depth: touches, or all that was learned where more than touches were taught. */
export const usedWords = (used: number): string => (isTaught() ? t.learned(used) : t.used(used));

/** “After 3 touches” */
export const afterWords = (used: number): string => (isTaught() ? t.afterAll(used) : t.after(used));

const isTaught = (): boolean => taughtHere.value.length + (taughtInLog.value?.length ?? 0) > 0;
