/** One tap: the lure of this rod has touched bottom. */
import { once } from "../../base/shell/guard";
import { text } from "../../base/text/text";
import { createTouch, offerUndoOf } from "../../state/notes/create";
import { depthOverLure } from "../../state/rise/watch";
import { type Rod, spread } from "../../state/spread/spread";
import { lessonOf } from "./calibrate/lesson";

export const TouchButton = ({ rod }: { rod: Rod }) => (
  <button type="button" class="button touch-now" onClick={once(() => noteTouch(rod))}>
    <span>
      {text.notes.noteTouch}{" "}
      <small>{text.lines.oneRod(spread.value.rods.findIndex(({ id }) => id === rod.id) + 1)}</small>
    </span>
  </button>
);

/** Noted, with the way back and what it has taught. */
function noteTouch(rod: Rod): void {
  const lesson = lessonOf(rod);
  const record = createTouch(rod, "touch", depthOverLure(rod.id));
  offerUndoOf(record, () => lesson(record.id));
}
