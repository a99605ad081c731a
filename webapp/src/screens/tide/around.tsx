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
        return (
          <g key={one.id} transform={`translate(${x} ${y})`}>
            <Sign kind={one.kind} inUse={chosen.includes(one.id)} />
          </g>
        );
      })}
    </svg>
  );
}

/** A dot for a station of the tide, a triangle for one of the current; full where it is in use. */
function Sign({ kind, inUse }: { kind: Station["kind"]; inUse: boolean }) {
  const look = inUse ? "station chosen" : "station";
  return kind === "tide" ? (
    <circle class={look} r={inUse ? 7 : 5} />
  ) : (
    <path class={look} d={inUse ? "M0 -9l8 14h-16z" : "M0 -6l6 10h-12z"} />
  );
}

/** The same beside words that tell of it. */
export const SignOf = ({ kind }: { kind: Station["kind"] }) => (
  <svg class="station-sign" viewBox="-10 -10 20 20" aria-hidden="true">
    <Sign kind={kind} inUse />
  </svg>
);
