/** Teaches a reading of a rod as it is set now. */
import { offerUndo } from "../../../base/shell/undo";
import { text } from "../../../base/text/text";
import { unteach } from "../../../state/calibrate/share";
import { type Reading, type Taught, teach } from "../../../state/calibrate/taught";
import { doubtNow } from "../../../state/spread/doubt";
import { type Rod, spread } from "../../../state/spread/spread";
import { taughtWords } from "./words";

/** Teaches, with the way back. */
export function teachUndoably(one: Omit<Taught, "id" | "rigged">): void {
  const { id } = teach(one);
  offerUndo(text.teach.added(taughtWords(one)), () => void unteach(id));
}

/** doubt: one standard deviation of the reading, 0 for the usual. What is read later is of a speed of its own. */
export function teachReading(
  rod: Rod,
  kind: Reading,
  reading: number,
  doubt = 0,
  speed = spread.value.speed,
): void {
  const { place, rig, lineOut, drail, sinker } = rod;
  teachUndoably({
    kind,
    at: Date.now(),
    place,
    rig,
    lineOut,
    drail,
    sinker,
    speed,
    speedDoubt: doubtNow.value.speed,
    reading,
    doubt,
  });
}
