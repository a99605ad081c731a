/** The box from the side, to scale with what goes into it. */
import type { Fill } from "../../../base/desk/types/chill.gen";
import { text } from "../../../base/text/text";
import { amount } from "../../../base/units/show";

const t = text.fish.ice;

const left = 12;
const right = 214;
const top = 16;
const bottom = 150;

export function BoxPicture({ fill, count }: { fill: Fill; count: number }) {
  const share = (volume: number) => Math.min(volume / fill.box, 1.08);
  const level = (volume: number) => bottom - (bottom - top) * share(volume);
  const all = level(fill.taken);
  const ice = level(fill.ice);
  const percent = (volume: number) => amount("share", Math.round((100 * volume) / fill.box) / 100);
  // Pieces lie in rows, as many as their room of the picture has.
  const pieces = Array.from({ length: 60 }, (_, i) => ({
    x: left + 12 + ((i * 37) % (right - left - 26)),
    y: bottom - 12 - ((i * 23) % Math.max(1, Math.round(bottom - all - 14))),
  })).slice(0, Math.round(60 * Math.min(1, fill.ice / fill.taken)));
  const shown = Math.min(Math.round(count), 6);
  // Two levels close by each other have their words apart.
  const apart = Math.abs(ice - all) < 36;
  const words = `${t.iceTo}: ${percent(fill.ice)}. ${t.allTo.join(" ")}: ${percent(fill.taken)}.`;
  return (
    <svg class="drawing" viewBox="0 0 340 170" role="img" aria-label={t.picture(words)}>
      <path class="draw-water" d={`M${left} ${all}H${right}V${bottom}H${left}Z`} />
      {pieces.map(({ x, y }, i) => (
        <path key={i} class="draw-ice" d={`M${x} ${y}l8 -3l3 8l-8 3z`} />
      ))}
      {Array.from({ length: shown }, (_, i) => (
        <path
          key={i}
          class="draw-body"
          transform={`translate(${left + 8 + (i % 2) * 96} ${bottom - 14 - Math.floor(i / 2) * 30})`}
          d="M0 0C20 -16 52 -16 74 -3L88 -12Q82 0 88 12L74 3C52 16 20 16 0 0Z"
        />
      ))}
      <path class="draw-wall" d={`M${left - 6} ${top - 8}V${bottom + 6}H${right + 6}V${top - 8}`} />
      <path class="draw-dashed" d={`M${left} ${ice}H${right + 14}M${left} ${all}H${right + 14}`} />
      <text x={right + 18} y={apart ? Math.max(ice, all) + 22 : ice + 6}>
        {t.iceTo}
      </text>
      <text x={right + 18} y={apart ? Math.min(ice, all) - 22 : all - 4}>
        {t.allTo.map((line, i) => (
          <tspan key={line} x={right + 18} dy={i * 20}>
            {line}
          </tspan>
        ))}
      </text>
    </svg>
  );
}
