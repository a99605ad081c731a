/** What Lines shows and does besides picture, rods and deck: it comes right after the first paint. */
import { createTouch, offerUndoOf } from "../../state/notes/create";
import { onceRead } from "../../state/notes/search/reading";
import { depthOverLure } from "../../state/rise/watch";
import type { Rod } from "../../state/spread/spread";
import { lessonOf } from "./calibrate/lesson";
import { contradictionTold } from "./calibrate/notice";
import { allInTold } from "./heard/all-in";
import { instrumentsTold } from "./heard/offer";
import { speedTold } from "./heard/speed";
import { behindTold } from "./rise/behind";

export { RodDetail } from "./detail";
export { Foot } from "./foot";

export const told = () => [allInTold(), behindTold(), speedTold(), instrumentsTold(), contradictionTold()];

/** A touch of this rod, noted, with the way back and what it has taught. */
export function noteTouch(rod: Rod): Promise<void> {
  const over = depthOverLure(rod.id);
  return onceRead(`touch ${rod.id}`, () => {
    const lesson = lessonOf(rod);
    const record = createTouch(rod, "touch", over);
    offerUndoOf(record, () => lesson(record.id));
  });
}
