/** The depth by chart and tide, where it is another than Lines has: taken over by a tap, never silently. */
import { once } from "../../../base/shell/guard";
import { text } from "../../../base/text/text";
import { about } from "../../../base/units/show";
import { chartedDepth } from "../../../state/pace/current/predicted";
import { changeUndoably } from "../../../state/spread/solved";
import { spread } from "../../../state/spread/spread";

const t = text.tide;
/** m: less is not worth a tap. */
const worth = 0.15;

export function Charted() {
  const now = chartedDepth.value;
  if (!now || Math.abs(now.depth - spread.value.bottom) < worth) return null;
  const depth = about("depth", now.depth, 0.1);
  return (
    <button
      type="button"
      class="button"
      onClick={once(() => changeUndoably(t.bottomSet(depth), { bottom: now.depth }))}
    >
      <span>
        {t.setBottom(depth)}
        <small class="soft">{t.byChart(about("depth", now.height, 0.1))}</small>
      </span>
    </button>
  );
}
