/** The steps of a sinker. */
import { inSi } from "../../base/units/units";

/** Under this they are sold in small steps, over it in twice those, kg (common practice, no source). */
const small = 16 * inSi.oz;

/** The next of the sizes aboard, kg, heavier or lighter; beyond the last by 2 or 4 oz, or near enough 50 or 100 g. */
export function sinkerAfter(mass: number, by: 1 | -1, sizes: number[], metric: boolean): number {
  const nearby = 1e-6;
  const aboard = sizes.filter((size) => size > 0 && (size - mass) * by > nearby).sort((a, b) => (a - b) * by);
  const [next] = aboard;
  if (next !== undefined) return next;
  const least = metric ? 0.05 : 2 * inSi.oz;
  const step = mass + by * nearby < small ? least : 2 * least;
  // On the marks of that step, so that a typed weight comes back to what is sold.
  const at = mass / step;
  const to = by > 0 ? Math.floor(at + nearby) + 1 : Math.ceil(at - nearby) - 1;
  return Math.max(least, to * step);
}
