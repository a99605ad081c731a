/** Velocities over ground as arrows' tips, north up, with the circle that fits them: its centre is the current. */
import type { Answer } from "../../base/desk/types/current.gen";
import { text } from "../../base/text/text";
import { numeral, unitName } from "../../base/units/show";
import { inSi } from "../../base/units/units";
import type { Run } from "../../state/pace/find";

const size = 320;
const middle = size / 2;

interface Props {
  of: Run;
  answer: Answer | undefined;
  /** The current in words. */
  words: string;
}

export function Plot({ of, answer, words }: Props) {
  const { found } = answer ?? {};
  const aside = new Set(answer?.aside.map(({ sample }) => sample));
  const reach = Math.max(
    2 * inSi.kn,
    ...of.samples.map(({ speed }) => speed),
    found ? found.speed.mid + found.drift.mid : 0,
  );
  const knots = Math.min(12, Math.ceil((reach / inSi.kn) * 1.02));
  const scale = (middle - 22) / (knots * inSi.kn);
  const point = (speed: number, bearing: number) => ({
    x: middle + scale * speed * Math.sin(bearing),
    y: middle - scale * speed * Math.cos(bearing),
  });
  const step = knots > 6 ? 2 : 1;
  const rings = Array.from({ length: Math.floor(knots / step) }, (_, i) => (i + 1) * step);
  const centre = found && point(found.drift.mid, found.set.mid);
  return (
    <svg
      class="plot"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={text.pace.finding.plot(of.samples.length, words)}
    >
      {rings.map((ring) => (
        <circle key={ring} class="plot-ring" cx={middle} cy={middle} r={ring * inSi.kn * scale} />
      ))}
      <path class="plot-cross" d={`M${middle - 7} ${middle}h14M${middle} ${middle - 7}v14`} />
      <text x={middle + 5} y="14">
        N
      </text>
      <text x="6" y={size - 8}>
        {text.pace.finding.rings(`${numeral(step)} ${unitName("speed")}`)}
      </text>
      {found && centre && (
        <>
          <circle class="plot-fit" cx={centre.x} cy={centre.y} r={found.speed.mid * scale} />
          <path class="plot-current" d={`M${middle} ${middle}L${centre.x} ${centre.y}`} />
          <circle class="plot-centre" cx={centre.x} cy={centre.y} r="6" />
        </>
      )}
      {of.samples.map(({ speed, course }, i) => {
        const { x, y } = point(speed, course);
        return (
          <circle
            key={i}
            class={aside.has(i) ? "plot-point aside" : "plot-point"}
            cx={x}
            cy={y}
            r={of.kind === "legs" ? 7 : 4}
          />
        );
      })}
    </svg>
  );
}
