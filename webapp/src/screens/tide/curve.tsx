/** A value through the day as a line, with its turns at their times, and now. */
import type { Mark } from "../../base/desk/types/tide.gen";
import { text } from "../../base/text/text";
import { clock } from "../../base/units/when";

const t = text.tide;
const width = 340;
const tall = 140;
const [left, right, top, bottom] = [4, 4, 28, 30];

interface Props {
  what: string;
  points: { time: number; value: number }[];
  marks: Mark[];
  /** In words, with its unit. */
  say: (value: number) => string;
  /** s since 1970. */
  now: number;
}

export function Curve({ what, points, marks, say, now }: Props) {
  const first = points[0];
  const last = points[points.length - 1];
  if (!first || !last || last.time <= first.time) return null;
  const values = [...points, ...marks].map(({ value }) => value);
  const [low, high] = [Math.min(0, ...values), Math.max(0.1, ...values)];
  const x = (time: number) =>
    left + ((time - first.time) / (last.time - first.time)) * (width - left - right);
  const y = (value: number) => top + ((high - value) / (high - low)) * (tall - top - bottom);
  const line = points.map(({ time, value }) => `${x(time).toFixed(1)},${y(value).toFixed(1)}`).join(" ");
  const told = marks.filter(({ turn }) => !turn.startsWith("slack"));
  return (
    <svg
      class="tide-curve"
      viewBox={`0 0 ${width} ${tall}`}
      role="img"
      aria-label={t.curve(what, say(Math.min(...values)), say(Math.max(...values)))}
    >
      <line class="tide-zero" x1={left} x2={width - right} y1={y(0)} y2={y(0)} />
      <polyline class="tide-line" points={line} />
      {now >= first.time && now <= last.time && (
        <line class="tide-now" x1={x(now)} x2={x(now)} y1={top - 12} y2={tall - bottom} />
      )}
      {told.map(({ time, value }) => (
        <g key={time}>
          <circle class="tide-dot" cx={x(time)} cy={y(value)} r="3" />
          <text
            x={Math.min(width - 28, Math.max(28, x(time)))}
            y={value >= (low + high) / 2 ? y(value) - 8 : y(value) + 22}
            text-anchor="middle"
          >
            {clock(time * 1000)}
          </text>
        </g>
      ))}
    </svg>
  );
}
