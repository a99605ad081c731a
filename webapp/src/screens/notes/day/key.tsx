/** What the signs of the drawing mean, of those that are on it. */
import { text } from "../../../base/text/text";
import type { Happened } from "../../../state/produced/day";
import { Sign } from "./chart";

const t = text.produced.day;

type Drawn = Pick<Happened, "kind" | "landed" | "heading">;

const signs: [string, Drawn][] = [
  [t.mark, { kind: "mark", landed: true, heading: undefined }],
  [t.lost, { kind: "mark", landed: false, heading: undefined }],
  [t.touch, { kind: "touch", landed: false, heading: undefined }],
  [t.pass, { kind: "pass", landed: false, heading: Math.PI / 2 }],
  [t.passAlone, { kind: "pass", landed: false, heading: undefined }],
];

const alike = (a: Drawn, b: Drawn): boolean =>
  a.kind === b.kind &&
  (a.kind !== "mark" || a.landed === b.landed) &&
  (a.kind !== "pass" || (a.heading === undefined) === (b.heading === undefined));

export function Key({ flows, happened }: { flows: boolean; happened: Happened[] }) {
  const sign = (name: string, drawing: preact.ComponentChildren) => (
    <span key={name}>
      <svg class="day-sign" viewBox="-16 -12 32 24" aria-hidden="true">
        {drawing}
      </svg>
      {name}
    </span>
  );
  return (
    <p class="soft day-key">
      {signs
        .filter(([, of]) => happened.some((one) => alike(one, of)))
        .map(([name, of]) => sign(name, <Sign of={of} />))}
      {flows &&
        sign(
          t.current,
          <g class="day-flow">
            <path d="M-12 0H12m-6 -4l6 4l-6 4" />
          </g>,
        )}
    </p>
  );
}
