/** The skipper's papers: what was landed and let go, for whoever asks for a report; to print. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Printer } from "../../../base/parts/icons";
import { Pick } from "../../../base/parts/input/pick";
import { Page } from "../../../base/parts/page";
import { WideTable } from "../../../base/parts/wide-table";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { fromDesk, text } from "../../../base/text/text";
import { amount, numeral } from "../../../base/units/show";
import { dated } from "../../../base/units/when";
import { summaries } from "../../../state/log/log";
import { choiceName } from "../../../state/notes/words";
import { type Fish, type Landing, landings, sumOf } from "../../../state/out/papers";

const t = text.papers;

export function PapersPage() {
  /** Undefined until they are read. */
  const read = useSignal<Landing[] | undefined>(undefined);
  const all = read.value ?? [];
  const years = [...new Set(all.map(yearOf))].sort((a, b) => b - a);
  const chosen = useSignal<number | undefined>(undefined);
  const year = chosen.value ?? years[0];
  const shown = all.filter((one) => yearOf(one) === year);
  const trips = summaries.value;
  useEffect(() => {
    let wanted = true;
    if (trips)
      landings(trips).then((now) => {
        if (wanted) read.value = now;
      });
    return () => {
      wanted = false;
    };
  }, [read, trips]);
  return (
    <Page title={t.title} back={href("notes", "past")} kind="papers">
      <p>{t.what}</p>
      {years.length > 1 && (
        <Pick
          label={text.produced.year}
          options={years.map((one) => ({ id: String(one), name: String(one) }))}
          value={String(year)}
          onPick={(one) => (chosen.value = Number(one))}
        />
      )}
      {all.length === 0 ? (
        <p role="status">{read.value ? text.notes.past.none : text.produced.reading}</p>
      ) : (
        <>
          <button type="button" class="button" onClick={once(() => window.print())}>
            <Printer /> {t.print}
          </button>
          <WideTable name={t.title}>
            <Table of={shown} />
          </WideTable>
          <h2>{t.sum(String(year))}</h2>
          <ul>
            {sumOf(shown).map(({ species, fate, count }) => (
              <li key={species + fate}>
                {speciesWords(species)}: {numeral(count)} {fateWords(fate)}
              </li>
            ))}
          </ul>
          <p class="soft">{t.rules}</p>
        </>
      )}
    </Page>
  );
}

const yearOf = ({ day }: Landing): number => new Date(day).getFullYear();

/** As told; else how many are named, who need not be all. */
const aboardWords = ({ aboard, named }: Landing): string =>
  aboard > 0 ? numeral(aboard) : named > 0 ? t.named(named) : t.untold;

const columns = [t.day, t.waters, t.aboard, t.species, t.count, t.fate, t.lengths, t.person];

function Table({ of }: { of: Landing[] }) {
  return (
    <table class="papers-table">
      <thead>
        <tr>
          {columns.map((name) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {of.flatMap((landing) => {
          const { trip, waters, fish } = landing;
          const head = [dated(landing.day), waters ? fromDesk(waters) : t.untold, aboardWords(landing)];
          const rows = fish.length > 0 ? fish.map(cells) : [[t.none, numeral(0), "", "", ""]];
          return rows.map((row) => (
            <tr key={`${trip} ${landing.day} ${waters} ${row.join()}`}>
              {[...head, ...row].map((cell, i) => (
                <td key={i} data-name={columns[i]}>
                  {cell}
                </td>
              ))}
            </tr>
          ));
        })}
      </tbody>
    </table>
  );
}

const speciesWords = (species: string): string => (species ? choiceName("fish", species) : t.untold);
const fateWords = (fate: string): string => (fate ? choiceName("fate", fate) : t.untold);

const cells = ({ species, person, fate, lengths, count }: Fish): string[] => [
  speciesWords(species),
  numeral(count),
  fateWords(fate),
  lengths
    .sort((a, b) => a - b)
    .map((length) => amount("ruler", length))
    .join("; ") || t.untold,
  person || t.untold,
];
