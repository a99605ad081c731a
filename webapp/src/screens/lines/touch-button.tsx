/** One tap: the lure of this rod has touched bottom. */
import { later } from "../../base/parts/come/later";
import { once } from "../../base/shell/guard";
import { text } from "../../base/text/text";
import { type Rod, spread } from "../../state/spread/spread";

/** What of Lines comes after the first paint. */
export const after = later(() => import("./after"));

const note = (rod: Rod) =>
  after.load().then(
    ({ noteTouch }) => noteTouch(rod),
    () => undefined,
  );

export const TouchButton = ({ rod }: { rod: Rod }) => (
  <button
    type="button"
    class="button touch-now"
    disabled={spread.value.allIn}
    onClick={once(() => note(rod))}
  >
    <span>
      {text.quick.noteTouch}{" "}
      <small>{text.lines.oneRod(spread.value.rods.findIndex(({ id }) => id === rod.id) + 1)}</small>
    </span>
  </button>
);
