/** The turn from above and from the side: every line from its rod tip to its lure. */
import { text } from "../../../base/text/text";
import { amount } from "../../../base/units/show";
import { type Drawn, fromAbove, fromBeside, path, type Scale } from "./frame";

const width = 336;

interface Props {
  lines: Drawn[];
  /** Radius of the boat's path, m, positive to starboard; 0 straight. */
  radius: number;
  words: string;
}

export function Above({ lines, radius, words }: Props) {
  const height = 250;
  const scale = fromAbove(lines, width, height);
  return (
    <svg class="turn-picture" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={words}>
      <rect class="water" width={width} height={height} />
      <path class="turn-wake" d={wake(radius, scale, height)} />
      <path class="boat" d={`M${width / 2} 4q9 10 7 24h-14q-2 -14 7 -24z`} />
      {lines.map((line) => (
        <Line key={line.number} line={line} xs={line.abeam} ys={line.astern} scale={scale} />
      ))}
      <text class="picture-note" x="8" y={height - 10}>
        {text.turn.above}
      </text>
    </svg>
  );
}

/** The way the boat has come. */
function wake(radius: number, scale: Scale, height: number): string {
  const steps = 40;
  const reach = Math.abs(radius) > 0 ? Math.min(Math.PI, (height * 2) / Math.abs(radius)) : 0;
  const points = Array.from({ length: steps + 1 }, (_, i) => {
    if (radius === 0) return [0, (i / steps) * height] as const;
    const angle = (i / steps) * reach;
    return [radius * (1 - Math.cos(angle)), Math.abs(radius) * Math.sin(angle)] as const;
  });
  return path(
    points.map(([abeam]) => abeam),
    points.map(([, astern]) => astern),
    scale,
  );
}

export function Beside({ lines, bottom, words }: { lines: Drawn[]; bottom: number; words: string }) {
  const height = 170;
  const scale = fromBeside(lines, bottom, width, height);
  return (
    <svg class="turn-picture" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={words}>
      <rect class="water" y={scale.y(0)} width={width} height={height - scale.y(0)} />
      <rect class="ground" y={scale.y(bottom)} width={width} height={Math.max(0, height - scale.y(bottom))} />
      <path class="surface" d={`M0 ${scale.y(0)}H${width}`} />
      <path class="bottom" d={`M0 ${scale.y(bottom)}H${width}`} />
      {lines.map((line) => (
        <Line key={line.number} line={line} xs={line.astern} ys={line.depth} scale={scale} />
      ))}
      <text class="picture-note" x={width - 8} y={scale.y(bottom) - 8} text-anchor="end">
        {text.turn.beside(amount("depth", bottom))}
      </text>
    </svg>
  );
}

interface LineProps {
  line: Drawn;
  xs: number[];
  ys: number[];
  scale: Scale;
}

/** One line with the number of its rod at the lure, its first point. */
function Line({ line, xs, ys, scale }: LineProps) {
  const [x = 0] = xs;
  const [y = 0] = ys;
  return (
    <g class={line.chosen ? "towed chosen" : "towed"}>
      <path class="line" d={path(xs, ys, scale)} />
      <g class="tag" transform={`translate(${scale.x(x)} ${scale.y(y)})`}>
        <circle r="11" />
        <text y="6" text-anchor="middle">
          {line.number}
        </text>
      </g>
    </g>
  );
}
