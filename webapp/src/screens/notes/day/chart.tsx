/** Where the boat went, north up, with what happened where, and how the current ran. */
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";
import type { Happened, Spot } from "../../../state/produced/day";

const t = text.produced.day;
const size = 340;
const margin = 22;
/** m in a degree of latitude, near enough for a drawing. */
const degree = 111_120;
/** m across at least, so that a boat that lay still is no scribble over the whole drawing. */
const least = 400;
/** Pixels for a current of 1 m/s. */
const perSpeed = 50;

export interface Flow {
  at: number;
  /** m/s and rad towards. */
  speed: number;
  set: number;
}

interface Props {
  track: Spot[][];
  happened: Happened[];
  flows: Flow[];
}

/** Where a boat was at a time, by the nearest spot. */
const near = (spots: Spot[], at: number): Spot | undefined =>
  spots.reduce<Spot | undefined>(
    (best, one) => (!best || Math.abs(one.at - at) < Math.abs(best.at - at) ? one : best),
    undefined,
  );

/** A round length of about a quarter of the drawing, in sea miles. */
const round = (miles: number): number =>
  [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10].findLast((one) => one <= miles) ?? 0.05;

/** The least and the greatest; a long track has more than a call takes arguments. */
const ends = (all: number[]): [number, number] =>
  all.reduce(([least, most], one) => [Math.min(least, one), Math.max(most, one)], [Infinity, -Infinity]);

export function Chart({ track, happened, flows }: Props) {
  const spots = track.flat();
  const [south, north] = ends(spots.map(({ lat }) => lat));
  const [west, east] = ends(spots.map(({ lon }) => lon));
  const shrink = Math.cos(((south + north) / 2) * (Math.PI / 180));
  const across = Math.max(least, (north - south) * degree, (east - west) * degree * shrink);
  const scale = (size - 2 * margin) / across;
  const x = (lon: number) => size / 2 + (lon - (west + east) / 2) * degree * shrink * scale;
  const y = (lat: number) => size / 2 - (lat - (south + north) / 2) * degree * scale;
  const miles = round(across / 4 / 1852);
  const bar = miles * 1852 * scale;
  const count = (kind: Happened["kind"]) => happened.filter((one) => one.kind === kind).length;
  return (
    <svg
      class="day-chart"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={t.chart(count("mark"), count("touch"), count("pass"))}
    >
      {track.map((piece) => (
        <polyline
          key={piece[0]?.at}
          class="day-track"
          points={piece.map(({ lat, lon }) => `${x(lon).toFixed(1)},${y(lat).toFixed(1)}`).join(" ")}
        />
      ))}
      {flows.map(({ at, speed, set }) => {
        const spot = near(spots, at);
        return (
          spot && (
            <g
              key={at}
              class="day-flow"
              transform={`translate(${x(spot.lon)} ${y(spot.lat)}) rotate(${(set * 180) / Math.PI})`}
            >
              <path d={`M0 0V${-speed * perSpeed}m-4 6l4 -6l4 6`} />
            </g>
          )
        );
      })}
      {happened.map((one) => (
        <g key={one.record.id} transform={`translate(${x(one.lon)} ${y(one.lat)})`}>
          <Sign of={one} />
        </g>
      ))}
      <path class="day-bar" d={`M10 ${size - 10}v-6m0 6h${bar}m0 0v-6`} />
      <text x={16 + bar} y={size - 8}>
        {text.tide.miles(numeral(miles, miles < 0.1 ? 0.01 : 0.1))}
      </text>
      <text x={size - 20} y="19">
        N
      </text>
      <path class="day-bar" d={`M${size - 14} 42V24m-4 6l4 -6l4 6`} />
    </svg>
  );
}

/** Landed: a full dot; got off: a ring; a touch: a triangle on its tip; a pass: an arrow on its course, a cross without one. */
export function Sign({
  of: { kind, landed, heading },
}: {
  of: Pick<Happened, "kind" | "landed" | "heading">;
}) {
  if (kind === "mark") return <circle class={landed ? "day-mark landed" : "day-mark"} r="6" />;
  if (kind === "touch") return <path class="day-touch" d="M-6 -4h12l-6 10z" />;
  if (heading === undefined) return <path class="day-pass" d="M-6 -6L6 6M-6 6L6 -6" />;
  const turn = (heading * 180) / Math.PI;
  return <path class="day-pass" transform={`rotate(${turn})`} d="M0 14V-14m-5 7l5 -7l5 7" />;
}
