/** The answer for a rod in words. */
import type { RodAnswer } from "../../base/desk/types/towline.gen";
import { sayProblem } from "../../base/parts/input/problem";
import { text } from "../../base/text/text";
import { about, amount, asSureAs, banded, bandNumbers, lineAmount } from "../../base/units/show";
import { gear, type Rig } from "../../state/gear/gear";
import { weightsName } from "../../state/gear/names";
import { sinkerOn } from "../../state/spread/request";
import type { Rod } from "../../state/spread/spread";

/** “34 ± 4” and “ft”, with narrow spaces: the number stands large beside a name. */
export function depthParts({ depth }: RodAnswer): { number: string; unit: string } {
  const { mid, half, unit } = bandNumbers("depth", depth);
  return { number: `${mid}\u202f±\u202f${half}`, unit };
}

/** “34 ± 4 ft” */
export const depthWords = ({ depth }: RodAnswer): string => banded("depth", depth);

/** “11 ft off bottom”, and that it may touch where the bottom lies within the band. */
export function offBottomWords({ offBottom }: Pick<RodAnswer, "offBottom">): string {
  if (offBottom.mid <= 0) return text.lines.onBottom;
  const distance = asSureAs("depth", offBottom.mid, offBottom);
  return offBottom.low <= 0 ? text.lines.mayTouch(distance) : text.lines.offBottom(distance);
}

/** What to do about this rod, in one sentence. */
export function adviceWords(answer: RodAnswer, rig: Rig): string {
  const t = text.lines.advice;
  if (answer.trouble) return `${text.lines.dials.lineOut}: ${sayProblem(answer.trouble, "line")}`;
  const { why, change, depth, speed, lineOut } = answer.advice;
  if (answer.verdict === "in the band") return t.leave;
  if (why === "") return change > 0 ? t.letOut(lineAmount(change)) : t.takeIn(lineAmount(-change));
  const reached = asSureAs("depth", depth, answer.depth);
  const at = speed > 0 ? about("speed", speed, 0.1) : undefined;
  if (why === "deeper than all the line aboard can bring it") {
    const backing = rig.backingLength > 0 ? amount("line", rig.backingLength) : undefined;
    return t.notDeepEnough(amount("line", rig.wireLength), backing, reached, at);
  }
  return t.notHighEnough(lineAmount(lineOut), reached, at);
}

/** Why the band is as wide as it is: the one or two largest causes. */
export function causeWords({ causes }: RodAnswer): string {
  const [first, second] = causes;
  if (!first) return text.lines.causes.none;
  const name = text.lines.causes.names[first.cause];
  if (!second || first.share > 0.6) return text.lines.causes.mostly(name);
  return text.lines.causes.both(name, text.lines.causes.names[second.cause]);
}

/** What hangs on this rod's line; undefined where nothing does. */
export const weightWords = (rod: Pick<Rod, "drail" | "rig" | "sinker">): string | undefined =>
  weightsName(rod.drail, sinkerOn(gear.value, rod));
