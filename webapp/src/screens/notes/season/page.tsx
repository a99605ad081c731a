/** The season read: what is likely better so far, and rates by any setting, two at a time. */
import { useEffect } from "preact/hooks";
import type { Of } from "../../../base/desk/types/produced.gen";
import { Choices } from "../../../base/parts/input/choices";
import { Pick } from "../../../base/parts/input/pick";
import { Page } from "../../../base/parts/page";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";
import { moment } from "../../../base/units/when";
import { catchOf } from "../../../state/notes/catch";
import type { FactorName } from "../../../state/produced/factors";
import {
  chosen,
  empty,
  failed,
  followSeason,
  outings,
  type Read,
  reading,
  season,
  type Wanted,
  wanted,
  yearOf,
} from "../../../state/produced/read";
import { factorNames } from "../../../state/produced/season";
import { OffWhy } from "../parts/catch";
import { Findings } from "./findings";
import { Plot } from "./plot";
import { hours, percent } from "./words";

const t = text.produced;
const ofs = (["strikes", "landed", "kept"] as const).map((value) => ({ value, name: t.ofs[value] }));
const want = (change: Partial<Wanted>) => {
  wanted.value = { ...wanted.value, ...change };
};

export function SeasonPage() {
  useEffect(followSeason, []);
  const read = season.value;
  return (
    <Page title={t.title} back={href("notes", "past")} kind="season">
      {failed.value && <p class="notice">{t.failed}</p>}
      {empty.value && <p>{t.none}</p>}
      {!read && !empty.value && !failed.value && <p role="status">{t.reading}</p>}
      {read && !empty.value && <Shown read={read} />}
    </Page>
  );
}

function Shown({ read }: { read: Read }) {
  const { answer, of, whole, part } = read;
  const { factor, beside } = wanted.value;
  const place = factorNames.indexOf(factor);
  const other = beside && beside !== factor ? factorNames.indexOf(beside) : -1;
  const told = answer.factors.find((one) => one.factor === place && one.other === other);
  return (
    <>
      {part && <p role="status">{t.soFar(numeral(part.read), numeral(part.of))}</p>}
      <p>
        {t.head(numeral(answer.strikes), numeral(answer.events), hours(answer.time), numeral(answer.trips))}{" "}
        {t.headOf[of]} {answer.without > 0 && t.without(numeral(answer.without))}
      </p>
      {answer.early && !part && <p class="notice">{t.early(numeral(answer.missing))}</p>}
      {!whole && !part && <p role="status">{t.lights}</p>}
      {whole && reading.value && <p role="status">{t.asOf(moment(read.at))}</p>}
      {whole && !answer.early && <Findings read={read} />}
      <div class="rates-asked">
        <Pick
          label={t.by}
          options={factorNames.map((id) => ({ id, name: t.factors[id] ?? id }))}
          value={factor}
          onPick={(id) => want({ factor: id as FactorName })}
        />
        <Pick
          label={t.beside}
          options={[
            { id: "", name: t.nothingElse },
            ...factorNames.filter((id) => id !== factor).map((id) => ({ id, name: t.factors[id] ?? id })),
          ]}
          value={other < 0 ? "" : (beside ?? "")}
          onPick={(id) => want({ beside: id === "" ? undefined : (id as FactorName) })}
        />
      </div>
      {told && (
        <>
          <Plot told={told} read={read} />
          {(told.untold > 0 || told.untoldEvents > 0) && (
            <p class="soft">{t.untold(hours(told.untold), numeral(told.untoldEvents))}</p>
          )}
        </>
      )}
      <OffWhy of={catchOf(chosen.value.flatMap(({ effort }) => effort.strikes.map((one) => one.record)))} />
      <Filters />
      <h2>{t.how}</h2>
      {answer.spread > 0.05 && <p>{t.spread(percent(answer.spread))}</p>}
      {t.howWords.map((words) => (
        <p key={words}>{words}</p>
      ))}
    </>
  );
}

function Filters() {
  const all = outings.value ?? [];
  const years = [...new Set(all.map(yearOf))].sort((a, b) => b - a);
  const grounds = [...new Set(all.map(({ ground }) => ground).filter(Boolean))].sort();
  const { of, year, ground } = wanted.value;
  const options = (names: string[]) => [
    { id: "", name: t.all },
    ...names.map((name) => ({ id: name, name })),
  ];
  return (
    <div class="rates-asked">
      <Choices label={t.of} choices={ofs} value={of} onChoose={(value: Of) => want({ of: value })} />
      {years.length > 1 && (
        <Pick
          label={t.year}
          options={options(years.map(String))}
          value={year === undefined ? "" : String(year)}
          onPick={(id) => want({ year: id === "" ? undefined : Number(id) })}
        />
      )}
      {grounds.length > 1 && (
        <Pick
          label={t.ground}
          options={options(grounds)}
          value={ground ?? ""}
          onPick={(id) => want({ ground: id || undefined })}
        />
      )}
    </div>
  );
}
