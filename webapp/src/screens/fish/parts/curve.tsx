/** A curve over time, with what it is held against. */
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";
import { inSi } from "../../../base/units/units";

interface Props {
  label: string;
  /** x in s. */
  points: { x: number; y: number }[];
  /** The least y that is shown; that of the points where none is told. */
  from?: number;
  /** A level across. */
  line?: { y: number; name: string };
  /** A moment on the way. */
  mark?: { x: number; name: string };
}

const width = 340;
const height = 150;
const foot = 30;

export function CurvePicture({ label, points, from, line, mark }: Props) {
  const end = points.at(-1)?.x ?? 1;
  const ys = points.map(({ y }) => y);
  const low = from ?? Math.min(...ys);
  const high = Math.max(...ys, low + 1e-6);
  const x = (s: number) => (width * Math.min(s, end)) / end;
  const y = (value: number) => 8 + (height - foot - 8) * (1 - (value - low) / (high - low));
  const at = (one: { x: number; y: number }) => `${x(one.x).toFixed(1)} ${y(one.y).toFixed(1)}`;
  const path = points.map(at).join("L");
  const hours = end / inSi.h;
  const every = [0.5, 1, 2, 5, 10, 24, 48].find((step) => hours / step <= 6) ?? 48;
  const ticks = Array.from({ length: Math.floor(hours / every) }, (_, i) => (i + 1) * every);
  return (
    <svg class="drawing curve" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      <path class="draw-water" d={`M0 ${height - foot}L${path}L${width} ${height - foot}Z`} />
      <path class="draw-thick" d={`M${path}`} />
      <path d={`M0 ${height - foot}H${width}`} />
      {ticks.map((hour) => (
        <g key={hour}>
          <path d={`M${x(hour * inSi.h)} ${height - foot}v5`} />
          <text x={Math.min(x(hour * inSi.h), width - 14)} y={height - 4} text-anchor="middle">
            {numeral(hour, every < 1 ? 0.1 : 1)}
            {hour === ticks[0] ? ` ${text.units.h}` : ""}
          </text>
        </g>
      ))}
      {line && (
        <>
          <path class="draw-dashed" d={`M0 ${y(line.y)}H${width}`} />
          <text x={width - 4} y={y(line.y) - 6} text-anchor="end">
            {line.name}
          </text>
        </>
      )}
      {mark && (
        <>
          <path class="draw-cut" d={`M${x(mark.x)} 4V${height - foot}`} />
          <text
            x={x(mark.x) + (mark.x > end / 2 ? -8 : 8)}
            y={mark.x > end / 2 ? 18 : height - foot - 8}
            text-anchor={mark.x > end / 2 ? "end" : "start"}
          >
            {mark.name}
          </text>
        </>
      )}
    </svg>
  );
}
