/** Steps of a measure that is not taken yet: the first tap begins at what is usual. */
import { units } from "./settings";
import { type Quantity, scaleOf, stepped } from "./units";

export const stepsFrom =
  (quantity: Quantity, usual: number) =>
  (si: number, by: 1 | -1): number => {
    const scale = scaleOf(quantity, units());
    // Onto the grid of the scale, and the first tap up gives what is usual itself.
    if (si === 0) return by > 0 ? stepped(stepped(usual, 1, scale), -1, scale) : 0;
    return Math.max(0, stepped(si, by, scale));
  };
