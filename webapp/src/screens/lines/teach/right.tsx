/** Whether it was right: where each touch was foretold, and where it came. */
import type { Foretold } from "../../../base/desk/types/calibrate.gen";
import { Check, Cross } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { amount, banded } from "../../../base/units/show";
import { judged, records } from "../../../state/calibrate/touches";
import { number } from "../../../state/entry/fold";
import { gear } from "../../../state/gear/gear";
import { wireOfKind } from "../../../state/gear/names";
import { touchWords } from "../calibrate/words";

const t = text.teach.right;

const width = 336;
const side = 8;

export function RightPage() {
  const told = judged.value.flatMap(({ touch, verdict }) => {
    const read = number(touch.record, "bottom");
    return verdict.foretold && read !== undefined ? [{ touch, foretold: verdict.foretold, read }] : [];
  });
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { foretold, read } of told) {
    from = Math.min(from, foretold.low, read);
    to = Math.max(to, foretold.high, read);
  }
  return (
    <Page title={t.title} back={href("lines", "touches")}>
      {told.length === 0 && <p>{t.none}</p>}
      {records.value
        .filter(({ touches }) => touches > 0)
        .map(({ wire, touches, inside }) => (
          <p key={wire} class="large-words">
            {t.record(wireOfKind(wire, gear.value.wires), String(inside), String(touches))}
          </p>
        ))}
      {told.length > 0 && <p>{t.what}</p>}
      <ol class="bands">
        {told.map(({ touch, foretold, read }) => (
          <li key={touch.id}>
            <p>
              <span>
                {foretold.inside ? <Check /> : <Cross />} {touchWords(touch)}
              </span>
              <b>{t.told(banded("depth", foretold), amount("depth", read))}</b>
            </p>
            <Row foretold={foretold} read={read} from={from} to={to} />
          </li>
        ))}
      </ol>
    </Page>
  );
}

function Row({ foretold, read, from, to }: { foretold: Foretold; read: number; from: number; to: number }) {
  const x = (depth: number) => side + ((depth - from) / Math.max(to - from, 0.1)) * (width - 2 * side);
  return (
    <svg viewBox={`0 0 ${width} 22`} aria-hidden="true">
      <rect
        class="band-now"
        x={x(foretold.low)}
        y="5"
        width={Math.max(x(foretold.high) - x(foretold.low), 3)}
        height="12"
      />
      <path class="band-mid" d={`M${x(read)} 0v22`} />
    </svg>
  );
}
