/** The skipper's judgements of how a spoon works, from which its band is learned. Kept on this phone. */
import type { Mark } from "../../base/desk/types/beat.gen";
import { limits } from "../../base/desk/types/beat.gen";
import { Kept } from "../../base/store/kept";
import { list, number, oneOf, record, within, words } from "../../base/store/shape";

export const feels = ["too slow", "right", "too fast"] as const;

export interface SpoonMark extends Required<Mark> {
  /** Id of the spoon. */
  spoon: string;
  /** ms. */
  at: number;
}

export const marks = new Kept<SpoonMark[]>(
  "marks",
  list(
    record<SpoonMark>({
      spoon: words,
      beat: within(limits.Mark.beat),
      speed: within(limits.Mark.speed),
      feel: oneOf(...feels),
      at: number,
    }),
    2000,
  ),
  [],
);

/** Of one spoon, the latest the desk takes. */
export const marksOf = (spoon: string): Mark[] =>
  marks.value
    .filter((mark) => mark.spoon === spoon)
    .slice(-limits.Pump.marks.most)
    .map(({ beat, speed, feel }) => ({ beat, speed, feel }));
