/** Bands of depth below each other on one scale, the last one being what counts. */
import type { Band } from "../../../base/desk/types/towline.gen";
import { text } from "../../../base/text/text";
import { amount, banded } from "../../../base/units/show";

const width = 336;
const height = 22;
const side = 6;

interface Props {
  rows: { name: string; band: Band }[];
  /** Marked where it lies on the scale. */
  bottom: number;
  /** Says so. */
  legend: boolean;
}

export function Bands({ rows, bottom, legend }: Props) {
  const lows = rows.map(({ band }) => band.low);
  const highs = rows.map(({ band }) => band.high);
  const [from, to] = [Math.min(...lows), Math.max(...highs, bottom)];
  const x = (depth: number) => side + ((depth - from) / Math.max(to - from, 0.1)) * (width - 2 * side);
  return (
    <div class="bands">
      {rows.map(({ name, band }, i) => (
        <div key={name}>
          <p>
            {name} <b>{banded("depth", band)}</b>
          </p>
          <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
            <rect
              class={i === rows.length - 1 ? "band-now" : "band-then"}
              x={x(band.low)}
              y="5"
              width={Math.max(x(band.high) - x(band.low), 3)}
              height="12"
            />
            <path class="band-mid" d={`M${x(band.mid)} 1v20`} />
            <path class="band-bottom" d={`M${x(bottom)} 0v${height}`} />
          </svg>
        </div>
      ))}
      {legend && <p class="soft">{text.calibrate.bottomAt(amount("depth", bottom))}</p>}
    </div>
  );
}
