/** The bottom under the lures and the lures over it, by the hour, with the strikes at their depth. */
import { text } from "../../../base/text/text";
import { units } from "../../../base/units/settings";
import { amount, numeral, unitName } from "../../../base/units/show";
import { fromSi, inSi } from "../../../base/units/units";
import { clock } from "../../../base/units/when";
import { rodOf } from "../../../state/produced/day";
import { type Effort, fishOf } from "../../../state/produced/effort";
import type { Sounded } from "../../../state/traces/traces";
import { roundTimes } from "./axis";

const t = text.produced.day;
const [width, tall] = [340, 220];
const [left, right, top, foot] = [46, 8, 12, 30];

/** Where the sounder told nothing for so long, ms, its line is broken. */
const gap = 120_000;

interface Props {
  effort: Effort;
  sounded: Sounded["depths"];
}

export function Depths({ effort, sounded }: Props) {
  const outs = effort.outs.filter(({ rod }) => rod.depth);
  // While lures are out; of a trip that notes of none, as long as the sounder told.
  const whiles = outs.length > 0 ? outs : sounded.map(({ at }) => ({ from: at, to: at }));
  const [from, to] = [Math.min(...whiles.map((one) => one.from)), Math.max(...whiles.map((one) => one.to))];
  const read = sounded.filter(({ at }) => at >= from && at <= to);
  const bottoms = effort.bottoms.filter(({ at }) => at > from && at < to);
  const deepest =
    1.08 *
    Math.max(
      ...outs.map(({ bottom, rod }) => Math.max(bottom, rod.depth?.high ?? 0)),
      ...bottoms.map(({ depth }) => depth),
      ...read.map(({ depth }) => depth),
    );
  const x = (at: number) => left + ((at - from) / (to - from)) * (width - left - right);
  const y = (depth: number) => top + (depth / deepest) * (tall - top - foot);
  // Depths of all lures at once, from change to change.
  const changes = [...outs.flatMap((one) => [one.from, one.to]), ...bottoms.map(({ at }) => at)];
  const times = [...new Set(changes)].sort((a, b) => a - b);
  const spans = times.slice(1).flatMap((end, i) => {
    const begin = times[i] as number;
    const now = outs.filter((one) => one.from <= begin && one.to >= end);
    const depths = now.flatMap(({ rod }) => (rod.depth ? [rod.depth.low, rod.depth.high] : []));
    const bottom = effort.bottoms.findLast(({ at }) => at <= begin)?.depth ?? now[0]?.bottom ?? 0;
    return now.length > 0
      ? [{ begin, end, low: Math.min(...depths), high: Math.max(...depths), bottom }]
      : [];
  });
  const strikes = effort.strikes.flatMap(({ at, record }) => {
    const depth = rodOf(record)?.rod.depth;
    return depth && at >= from && at <= to
      ? [{ at, depth, landed: fishOf(record).landed, id: record.id }]
      : [];
  });
  const unit = units().depth;
  const step = [2, 5, 10, 20, 50].find((one) => (one * inSi[unit]) / deepest > 1 / 7) ?? 100;
  const marks = Array.from({ length: 8 }, (_, i) => i * step * inSi[unit]).filter((depth) => depth < deepest);
  const hours = roundTimes(from, to).filter((at) => x(at) <= width - 26);
  return (
    <svg class="day-depths" viewBox={`0 0 ${width} ${tall}`} role="img" aria-label={t.depths(strikes.length)}>
      {marks.map((depth) => (
        <g key={depth}>
          <path class="day-grid" d={`M${left} ${y(depth)}H${width - right}`} />
          <text x={left - 4} y={y(depth) + 6} text-anchor="end">
            {depth === 0 ? `0\u202f${unitName("depth")}` : numeral(fromSi(depth, unit))}
          </text>
        </g>
      ))}
      {spans.map(({ begin, end, low, high, bottom }) => (
        <g key={begin}>
          <rect
            class="day-lures"
            x={x(begin)}
            y={y(low)}
            width={x(end) - x(begin)}
            height={y(high) - y(low)}
          />
          <rect
            class="day-bottom"
            x={x(begin)}
            y={y(bottom)}
            width={x(end) - x(begin)}
            height={Math.max(0, tall - foot - y(bottom))}
          />
          <path class="day-floor" d={`M${x(begin)} ${y(bottom)}H${x(end)}`} />
        </g>
      ))}
      <path
        class="day-sounded"
        d={read
          .map(({ at, depth }, i) => {
            const on = at - (read[i - 1]?.at ?? Number.NEGATIVE_INFINITY) < gap;
            return `${on ? "L" : "M"}${x(at).toFixed(1)} ${y(depth).toFixed(1)}`;
          })
          .join("")}
      />
      {strikes.map(({ at, depth, landed, id }) => (
        <g key={id}>
          <path class="day-doubt" d={`M${x(at)} ${y(depth.low)}V${y(depth.high)}`} />
          <circle class={landed ? "day-mark landed" : "day-mark"} cx={x(at)} cy={y(depth.mid)} r="5" />
        </g>
      ))}
      {hours.map((at) => (
        <text key={at} x={x(at)} y={tall - 6} text-anchor="middle">
          {clock(at)}
        </text>
      ))}
    </svg>
  );
}

/** A band of depth, and of how far off the bottom that is. */
export const depthWords = (
  say: (depth: string, off: string) => string,
  { low, high }: { low: number; high: number },
  bottom: number,
): string => {
  const unit = units().depth;
  const whole = (si: number) => Math.round(fromSi(Math.max(0, si), unit));
  const band = (from: number, to: number) =>
    `${numeral(whole(from))}–${amount("depth", whole(to) * inSi[unit])}`;
  return say(band(low, high), band(bottom - high, bottom - low));
};
