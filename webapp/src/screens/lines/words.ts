/** The answer for a rod in words. */
import type { RodAnswer } from "../../base/desk/types/towline.gen";
import { sayProblem } from "../../base/parts/input/problem";
import { text } from "../../base/text/text";
import {
  about,
  amount,
  asSureAs,
  banded,
  bandNumbers,
  inTen,
  lineAmount,
  lineUp,
} from "../../base/units/show";
import { gear, type Rig } from "../../state/gear/gear";
import { weightsName } from "../../state/gear/names";
import { sinkerOn, takeIn } from "../../state/spread/request";
import type { Rod } from "../../state/spread/spread";

/** “34 ± 4” and “ft”, with narrow spaces: the number stands large beside a name. */
export function depthParts({ depth }: RodAnswer): { number: string; unit: string } {
  const { mid, half, unit } = bandNumbers("depth", depth);
  return { number: `${mid}\u202f±\u202f${half}`, unit };
}

/** “34 ± 4 ft” */
export const depthWords = ({ depth }: RodAnswer): string => banded("depth", depth);

/** “11 ft off bottom”. */
export function clearWords({ offBottom }: Pick<RodAnswer, "offBottom">): string {
  if (offBottom.mid <= 0) return text.lines.onBottom;
  return text.lines.offBottom(asSureAs("depth", offBottom.mid, offBottom));
}

/** Smaller chances are not worth a word. */
export const oddsTold = 0.05;

/** “11 ft off bottom, touches 2 in 10”, where it may touch. */
export function offBottomWords(answer: Pick<RodAnswer, "offBottom" | "odds">): string {
  const { offBottom, odds } = answer;
  if (offBottom.mid <= 0 || odds.touch < oddsTold) return clearWords(answer);
  return `${clearWords(answer)}, ${text.lines.odds.touch(inTen(odds.touch))}`;
}

/**
 * What the rise ahead wants of this rod, as its alarm says it: one number at a time; meanwhile nothing is said that takes a
 * lure deeper. Undefined: whatever else there is to do.
 */
export function riseWords({ id }: Rod, answer?: RodAnswer): string | undefined {
  const line = takeIn.value[id];
  if (line) return text.lines.advice.takeIn(lineAmount(line));
  const [first] = answer?.advice?.steps ?? [];
  const deeper = answer && first && first.depth > answer.depth.mid;
  return deeper && Object.keys(takeIn.value).length > 0 ? text.lines.advice.wait : undefined;
}

/** What to do about this rod, in one sentence: the first step of the advice, and why no line will do. */
export function adviceWords(answer: RodAnswer, rig: Rig): string {
  const t = text.lines.advice;
  if (answer.trouble) return `${text.lines.dials.lineOut}: ${sayProblem(answer.trouble, "line")}`;
  const { steps, why, speed } = answer.advice;
  const [first] = steps;
  if (first?.do === "speed") return t.goAt(about("speed", first.speed, 0.1));
  const line = steps.find((step) => step.do === "line");
  const weight = steps.find((step) => step.do === "weight");
  if (why !== "") {
    const reached = asSureAs("depth", line?.depth ?? answer.depth.mid, answer.depth);
    const at = speed > 0 ? about("speed", speed, 0.1) : undefined;
    if (why === "line too short") {
      const backing = rig.backingLength > 0 ? amount("line", rig.backingLength) : undefined;
      return t.notDeepEnough(amount("line", rig.wireLength), backing, reached, weight !== undefined, at);
    }
    if (line) return t.notHighEnough(lineAmount(line.lineOut), reached, at);
  }
  if (line) {
    const said = line.change > 0 ? t.letOut(lineAmount(line.change)) : toTakeIn(line.change);
    return line.backing > 0 ? t.backing(said, lineAmount(line.backing)) : said;
  }
  if (weight) return t.weight(amount("weight", weight.weight), lineAmount(weight.lineOut));
  return answer.verdict === "in the band" ? t.leave : t.best;
}

/** No less than is wanted: whoever takes in what he reads is done. */
const toTakeIn = (change: number): string => text.lines.advice.takeIn(lineAmount(lineUp(-change)));

/** The same as briefly as a row needs it, which stays in sight with all others: a tap tells the rest. */
export function briefAdvice(answer: RodAnswer, rig: Rig): string {
  const t = text.lines.advice;
  const { steps, why, speed } = answer.advice;
  if (answer.trouble || steps[0]?.do === "speed") return adviceWords(answer, rig);
  const line = steps.find((step) => step.do === "line");
  const weight = steps.find((step) => step.do === "weight");
  if (why === "line too short") {
    if (weight) return t.brief.heavier;
    return speed > 0 ? t.goAt(about("speed", speed, 0.1)) : t.brief.tooShort;
  }
  if (why !== "" && line) return t.brief.lighter;
  if (line) return line.change > 0 ? t.brief.letOut(lineAmount(line.change)) : toTakeIn(line.change);
  if (weight) return t.brief.weight(amount("weight", weight.weight));
  return adviceWords(answer, rig);
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
