/** What Lines shows and does besides picture, rods and deck: it comes right after the first paint. */
import { type Signal, signal } from "@preact/signals";
import { showUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
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

/** Taps for one rod within so many ms are of one touch: a judgement. */
const one = 2000;

/** When a touch of each rod was noted last, and whether it was tapped again since. */
const last = new Map<string, { at: number; again: Signal<boolean> }>();

/** A touch of this rod, noted, with the way back and what it has taught. */
export async function noteTouch(rod: Rod): Promise<void> {
  const now = performance.now();
  const before = last.get(rod.id);
  if (before && now - before.at < one) {
    before.again.value = true;
    showUndo();
    return;
  }
  const again = signal(false);
  const touch = { at: now, again };
  last.set(rod.id, touch);
  const over = depthOverLure(rod.id);
  return onceRead(`touch ${rod.id}`, () => {
    const lesson = lessonOf(rod);
    const record = createTouch(rod, "touch", over);
    // What was taken back is no touch: a tap after it is of another.
    const undone = () => {
      touch.at = Number.NEGATIVE_INFINITY;
    };
    offerUndoOf(record, () => (again.value ? text.calibrate.lesson.once : lesson(record.id)), undone);
  });
}
