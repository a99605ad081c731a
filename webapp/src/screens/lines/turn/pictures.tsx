/** The turn from above and from the side: every line from its rod tip to its lure. */
import type { ComponentChildren } from "preact";
import { text } from "../../../base/text/text";
import { amount } from "../../../base/units/show";
import { area, path, type Scale, shaded } from "../view";
import { apart, type Drawn, fromAbove, fromBeside } from "./frame";

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
    <Captioned by={text.turn.above}>
      <svg class="turn-picture" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={words}>
        <rect class="water" width={width} height={height} />
        <path class="turn-wake" d={wake(radius, scale, height)} />
        <path class="boat" d={`M${width / 2} 4q9 10 7 24h-14q-2 -14 7 -24z`} />
        <Lines of={lines} xs={(line) => line.abeam} ys={(line) => line.astern} scale={scale} />
      </svg>
    </Captioned>
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
    scale,
    points.map(([abeam]) => abeam),
    points.map(([, astern]) => astern),
  );
}

export function Beside({ lines, bottom, words }: { lines: Drawn[]; bottom: number; words: string }) {
  const height = 170;
  const scale = fromBeside(lines, bottom, width, height);
  return (
    <Captioned by={text.turn.beside(amount("depth", bottom))}>
      <svg class="turn-picture" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={words}>
        <rect class="water" y={scale.y(0)} width={width} height={height - scale.y(0)} />
        <rect
          class="ground"
          y={scale.y(bottom)}
          width={width}
          height={Math.max(0, height - scale.y(bottom))}
        />
        <path class="surface" d={`M0 ${scale.y(0)}H${width}`} />
        <path class="bottom" d={`M0 ${scale.y(bottom)}H${width}`} />
        {lines.map((line) => (
          <Doubt key={line.number} of={line} scale={scale} />
        ))}
        <Lines of={lines} xs={(line) => line.astern} ys={(line) => line.depth} scale={scale} />
      </svg>
    </Captioned>
  );
}

/** The band of a line's depth, as on Lines: the likelier, the darker; it reaches farther down than up. */
function Doubt({ of: { astern, depth, band, chosen }, scale }: { of: Drawn; scale: Scale }) {
  if (!band) return null;
  const [x = 0, low = 0, high = 0] = [astern[0], band.low[0], band.high[0]];
  return (
    <g class={chosen ? "towed chosen" : "towed"}>
      {shaded(depth, band).map((part) => (
        <path key={part.share} class="doubt" d={area(scale, astern, part.low, part.high)} />
      ))}
      <path class="doubt-bar" d={`M${scale.x(x)} ${scale.y(low)}V${scale.y(high)}`} />
    </g>
  );
}

/** What it shows stands under a picture, where no line runs through it. */
const Captioned = ({ by, children }: { by: string; children: ComponentChildren }) => (
  <figure class="turn-figure">
    {children}
    <figcaption class="soft">{by}</figcaption>
  </figure>
);

interface LinesProps {
  of: Drawn[];
  xs: (line: Drawn) => number[];
  ys: (line: Drawn) => number[];
  scale: Scale;
}

/** Every line, and over them the number of each rod at its lure, the line's first point. */
function Lines({ of, xs, ys, scale }: LinesProps) {
  const lures = of.map((line) => ({ x: scale.x(xs(line)[0] ?? 0), y: scale.y(ys(line)[0] ?? 0) }));
  const tags = apart(lures, 24);
  return (
    <>
      {of.map((line, i) => (
        <g key={line.number} class={line.chosen ? "towed chosen" : "towed"}>
          <path class="line" d={path(scale, xs(line), ys(line))} />
          <path class="tag-line" d={`M${lures[i]?.x} ${lures[i]?.y}L${tags[i]?.x} ${tags[i]?.y}`} />
        </g>
      ))}
      {of.map((line, i) => (
        <g key={line.number} class={line.chosen ? "chosen" : ""}>
          <g class="tag" transform={`translate(${tags[i]?.x} ${tags[i]?.y})`}>
            <circle r="11" />
            <text y="6" text-anchor="middle">
              {line.number}
            </text>
          </g>
        </g>
      ))}
    </>
  );
}
