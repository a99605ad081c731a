/** A problem of the desk in the person's words and units. */
import type { Problem } from "../../desk/types/codec.gen";
import { text } from "../../text/text";
import { units } from "../../units/settings";
import { bare, unitName } from "../../units/show";
import { fromSi, type Quantity, scaleOf } from "../../units/units";

/** To be read after the field's name, where the field is of this quantity. */
export function sayProblem(problem: Problem, quantity: Quantity): string {
  const { min, max } = problem;
  if (problem.code !== "range" || min === undefined || max === undefined) return sayOther(problem);
  const { unit, decimals } = scaleOf(quantity, units());
  const limit = (si: number, inward: (n: number) => number) => {
    const number = Number(fromSi(si, unit).toFixed(6));
    // Whole units where nobody minds the rest.
    const step = Math.abs(number) >= 20 ? 1 : 10 ** -decimals;
    return bare(inward(Number((number / step).toFixed(6))) * step, decimals);
  };
  return text.problems.range(limit(min, Math.ceil), limit(max, Math.floor), unitName(quantity));
}

/** What is wrong, where no quantity is in question. */
export const sayOther = (problem: Problem): string => text.problems.other(inWords(problem));

/** The desk’s problem in the language in use. */
export function inWords({ code, id = "", text: said, min, max }: Problem): string {
  const limit = (number: number | undefined) => (number === undefined ? "" : bare(number));
  return text.problems.byId[id] ?? text.problems.byCode[code]?.(limit(min), limit(max)) ?? said;
}

/** Where the field itself is not in sight: named, as the desk says it. */
export const saySomewhere = (problem: Problem): string =>
  text.problems.named(problem.field.replace(/^.*\./, ""), inWords(problem));
