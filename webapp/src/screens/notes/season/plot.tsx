/** Rates by level: for each a bar from where to where it lies, and a dot for what was counted. */
import type { Level, Told } from "../../../base/desk/types/produced.gen";
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";
import type { Read } from "../../../state/produced/read";
import { hours, levelName, percent, perTen } from "./words";

const t = text.produced;
const [width, tall] = [320, 26];

interface Props {
  told: Told;
  read: Read;
}

export function Plot({ told, read }: Props) {
  if (told.levels.length === 0) return null;
  const levels = [...told.levels].sort(
    (a, b) =>
      Number(b.verdict === "likely better") - Number(a.verdict === "likely better") || b.time - a.time,
  );
  // One that was hardly in the water must not press all others to the left.
  const farthest = Math.max(
    ...levels.map(({ rate, drawn }) => Math.min(rate.high, 2.5 * Math.max(rate.mid, drawn.high))),
    1e-9,
  );
  const x = (rate: number) => 8 + (width - 16) * Math.min(1, rate / farthest);
  return (
    <>
      <ul class="rates">
        {levels.map((level) => (
          <li key={`${level.level} ${level.other}`}>
            <span class="rates-name">
              <b>{levelName(read, told, level)}</b>
              <small>{t.counted(numeral(level.events), hours(level.time))}</small>
            </span>
            <Bar level={level} name={levelName(read, told, level)} x={x} farthest={farthest} />
            {read.whole && <Verdict level={level} early={read.answer.early} />}
          </li>
        ))}
      </ul>
      <p class="soft">
        0 – {perTen(farthest)} {t.unit}
      </p>
    </>
  );
}

interface BarProps {
  level: Level;
  name: string;
  x: (rate: number) => number;
  farthest: number;
}

function Bar({ level: { rate, drawn }, name, x, farthest }: BarProps) {
  const middle = tall / 2;
  return (
    <svg
      class="rates-bar"
      viewBox={`0 0 ${width} ${tall}`}
      role="img"
      aria-label={t.row(name, perTen(rate.mid), perTen(rate.low), perTen(rate.high))}
    >
      <path class="rates-axis" d={`M8 ${tall - 2}H${width - 8}`} />
      <path class="rates-band" d={`M${x(rate.low)} ${middle}H${x(rate.high)}`} />
      {rate.high > farthest && <path class="rates-beyond" d={`M${width - 12} 6l8 7l-8 7`} />}
      <path class="rates-drawn" d={`M${x(drawn.mid)} 3v20`} />
      <circle class="rates-dot" cx={x(rate.mid)} cy={middle} r="6" />
    </svg>
  );
}

function Verdict({ level, early }: { level: Level; early: boolean }) {
  const { verdict, thin, more, chance } = level;
  const words = [
    t.verdicts[verdict],
    thin && t.thinShort,
    chance >= 0 && t.chance(percent(Math.min(0.99, Math.max(0.01, chance)))),
    !early && verdict !== "likely better" && more > 0 && t.more(hours(more)),
  ].filter(Boolean);
  return words.length > 0 ? <small class="rates-verdict">{words.join(" · ")}</small> : null;
}
