/** Speed through the water on a scale, with its doubt, beside the band that is wanted. */
import type { Interval } from "../../base/desk/types/current.gen";
import { text } from "../../base/text/text";
import { about, banded, numeral, unitName } from "../../base/units/show";
import { fromSi } from "../../base/units/units";
import type { Wanted } from "../../state/pace/pace";

const width = 336;
const height = 78;
const side = 14;
const line = 44;

export function Gauge({ water, wanted }: { water: Interval; wanted: Wanted }) {
  const kn = (si: number) => fromSi(si, "kn");
  const from = Math.max(0, Math.floor(Math.min(kn(wanted.low), kn(water.mid)) - 1));
  const to = Math.ceil(Math.max(kn(wanted.high), kn(water.mid)) + 1);
  const x = (knots: number) =>
    side + ((Math.min(Math.max(knots, from), to) - from) / (to - from)) * (width - 2 * side);
  const halves = Array.from({ length: 2 * (to - from) + 1 }, (_, i) => from + i / 2);
  const every = Math.ceil((to - from) / 8);
  const at = x(kn(water.mid));
  return (
    <svg
      class="gauge"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={text.pace.gauge(
        `${about("speed", wanted.low, 0.1)}–${about("speed", wanted.high, 0.1)}`,
        banded("speed", water),
      )}
    >
      <rect
        class="wanted"
        x={x(kn(wanted.low))}
        y={line - 26}
        width={x(kn(wanted.high)) - x(kn(wanted.low))}
        height="26"
      />
      <path class="surface" d={`M${side} ${line}H${width - side}`} />
      {halves.map((knots) => {
        const whole = Number.isInteger(knots);
        return (
          <g key={knots} class="depth-mark">
            <path d={`M${x(knots)} ${line}v${whole ? 11 : 6}`} />
            {whole && (knots - from) % every === 0 && (
              <text x={x(knots)} y={height - 6} text-anchor="middle">
                {numeral(knots)}
              </text>
            )}
          </g>
        );
      })}
      <text x={width - side} y={line - 12} text-anchor="end">
        {unitName("speed")}
      </text>
      <path class="gauge-doubt" d={`M${x(kn(water.low))} ${line - 8}H${x(kn(water.high))}`} />
      <path class="gauge-now" d={`M${at} ${line}l-8 -18v-16h16v16z`} />
    </svg>
  );
}
