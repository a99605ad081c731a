/** The stations about the place, by bearing and distance, north up: those chosen stand out. */
import type { Station } from "../../base/desk/types/tide.gen";
import { text } from "../../base/text/text";
import { miles } from "./words";

const t = text.tide;
const size = 320;
const middle = size / 2;
/** Rings at a quarter, a half and the whole of the radius. */
const rings = [0.25, 0.5, 1];

interface Props {
  of: Station[];
  /** Ids. */
  chosen: string[];
}

export function Around({ of, chosen }: Props) {
  const shown = of.filter(({ why }) => why === "");
  const farthest = Math.max(1852, ...shown.map(({ distance }) => distance));
  const scale = (middle - 22) / farthest;
  const at = ({ distance, bearing }: Station) => ({
    x: middle + scale * distance * Math.sin(bearing),
    y: middle - scale * distance * Math.cos(bearing),
  });
  // The name of the lower one beneath it and of any other above it: two are never over each other.
  const lowest = Math.max(0, ...shown.filter(({ id }) => chosen.includes(id)).map((one) => at(one).y));
  return (
    <svg class="plot" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={t.around}>
      {rings.map((share) => (
        <circle key={share} class="plot-ring" cx={middle} cy={middle} r={share * farthest * scale} />
      ))}
      <path class="plot-cross" d={`M${middle - 7} ${middle}h14M${middle} ${middle - 7}v14`} />
      <text x={middle + 5} y="14">
        N
      </text>
      <text x="6" y={size - 8}>
        {miles(farthest)}
      </text>
      {shown.map((one) => {
        const { x, y } = at(one);
        const inUse = chosen.includes(one.id);
        return (
          <g key={one.id}>
            {one.kind === "tide" ? (
              <circle class={inUse ? "station chosen" : "station"} cx={x} cy={y} r={inUse ? 7 : 5} />
            ) : (
              <path
                class={inUse ? "station chosen" : "station"}
                d={inUse ? `M${x} ${y - 9}l8 14h-16z` : `M${x} ${y - 6}l6 10h-12z`}
              />
            )}
            {inUse && (
              <text
                x={x > middle ? x - 10 : x + 10}
                y={y === lowest ? y + 18 : y - 8}
                text-anchor={x > middle ? "end" : "start"}
              >
                {one.name.slice(0, Math.min(18, Math.floor((Math.max(x, size - x) - 12) / 9)))}
              </text>
            )}
          </g>
        );
      })}
    </svg>
  );
}
