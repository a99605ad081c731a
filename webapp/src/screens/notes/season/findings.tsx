/** What may be said of the season by now, in a few sentences. */
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";
import type { Read } from "../../../state/produced/read";
import { factorName, levelName, named, percent, times } from "./words";

const t = text.produced;

export function Findings({ read }: { read: Read }) {
  const { factors, looks } = read.answer;
  const all = factors.flatMap((told) =>
    told.levels.map((level) => ({
      level,
      name: `${[told.factor, told.other]
        .filter((place) => place >= 0)
        .map(factorName)
        .join(" · ")}: ${levelName(read, told, level)}`,
    })),
  );
  const likely = all.filter(({ level }) => level.verdict === "likely better");
  const goes = all.filter(({ level }) => level.verdict === "goes with another");
  const chance = Math.max(0, ...likely.map(({ level }) => level.discovery));
  return (
    <section class="findings">
      <h2>{t.so}</h2>
      {likely.map(({ level, name }) => {
        const { low, mid, high } = level.ratio.interval;
        return (
          <p key={name} class="notice">
            {level.ratio.open
              ? t.likelyOpen(name, times(low))
              : t.likely(name, times(mid), times(low), times(high))}{" "}
            {level.thin && t.thin}{" "}
            {level.with
              .filter(({ always }) => always)
              .map((one) => t.always(named(read, one.factor, one.level)))
              .join(" ")}
          </p>
        );
      })}
      {goes.map(({ level, name }) => (
        <p key={name}>
          {t.goes(
            name,
            level.with
              .filter(({ always }) => !always)
              .map((one) => named(read, one.factor, one.level))
              .join("; "),
          )}
        </p>
      ))}
      {likely.length === 0 && goes.length === 0 && <p>{t.nothing}</p>}
      <p class="soft">
        {likely.length > 0
          ? t.looks(numeral(looks), percent(Math.ceil(100 * chance) / 100 || 0.01))
          : t.looksNone(numeral(looks))}
      </p>
    </section>
  );
}
