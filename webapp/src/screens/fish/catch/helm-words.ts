/** The step for the helm in words. */
import type { SlowestAnswer } from "../../../base/desk/types/towline.gen";
import { text } from "../../../base/text/text";
import { about, speedUp } from "../../../base/units/show";

const t = text.fish.land.helm;

/** Nothing else comes down; of rods that a further fish is on nobody knows whether it still is. */
export const freeWords = (hooked: string[]): string =>
  hooked.length > 0 ? t.freeBut(hooked.join(", ")) : t.free;

/** A line that may touch at the speed of now is the first to come in; else the slowest speed is told. */
export function helmWords(
  { slowest, takeIn }: SlowestAnswer,
  names: string[],
  speed: number,
  hooked: string[],
): string {
  const order = takeIn.flatMap((i) => names[i] ?? []);
  const [first] = order;
  if (first === undefined) return freeWords(hooked);
  if (slowest >= speed) return t.already(first, order.slice(1).join(", "));
  return t.notSlower(about("speed", speedUp(slowest), 0.1), first, order.join(", "));
}
