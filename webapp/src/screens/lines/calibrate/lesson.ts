/** What a touch that was just noted has taught, in a sentence: how far its rod's depth has moved. */
import { text } from "../../../base/text/text";
import { about } from "../../../base/units/show";
import { judged } from "../../../state/calibrate/touches";
import { lessons } from "../../../state/spread/learned";
import { answerFor, solved } from "../../../state/spread/solved";
import { type Rod, spread } from "../../../state/spread/spread";

/** m: less is within what one touch can tell. */
const told = 0.1;

/** The words for it, undefined as long as it has not been reckoned with; asked before the touch is noted. */
export function lessonOf(rod: Rod): (record: string) => string | undefined {
  const before = answerFor(solved.value, rod)?.depth.mid;
  const { speed, bottom } = spread.value;
  const number = spread.value.rods.findIndex(({ id }) => id === rod.id) + 1;
  return (record) => {
    const t = text.calibrate.lesson;
    const verdict = judged.value.find(({ touch }) => touch.record.id === record)?.verdict.verdict;
    // One that contradicts has a notice of its own.
    if (verdict === undefined || verdict === "contradicts") return undefined;
    if (!lessons.value.on) return t.off;
    if (verdict !== "agrees") return text.calibrate.verdicts[verdict];
    const now = solved.value;
    const after = answerFor(now, rod)?.depth.mid;
    // Set anew since, its depth tells nothing of the touch.
    const same = now?.spread.speed === speed && now.spread.bottom === bottom && now.spread.rods.includes(rod);
    if (before === undefined || after === undefined || !same) return t.learned;
    const moved = after - before;
    if (Math.abs(moved) < told) return t.little(number);
    const by = about("depth", Math.abs(moved), 0.5);
    return moved > 0 ? t.deeper(number, by) : t.shallower(number, by);
  };
}
