/** The skipper's papers: what was landed and let go, for whoever asks for a report; to print. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Printer } from "../../../base/parts/icons";
import { Pick } from "../../../base/parts/input/pick";
import { Page } from "../../../base/parts/page";
import { WideTable } from "../../../base/parts/wide-table";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { amount, numeral } from "../../../base/units/show";
import { day } from "../../../base/units/when";
import { summaries, written } from "../../../state/log/log";
import { choiceName } from "../../../state/notes/words";
import { type Fish, type Landing, landingsOf } from "../../../state/out/papers";

const t = text.papers;

export function PapersPage() {
  const years = [
    ...new Set((summaries.value ?? []).map(({ opened }) => new Date(opened).getFullYear())),
  ].sort((a, b) => b - a);
  const chosen = useSignal<number | undefined>(undefined);
  const year = chosen.value ?? years[0];
  const landings = useSignal<Landing[]>([]);
  const changes = written.value;
  useEffect(() => {
    if (year === undefined) return;
    let wanted = true;
    landingsOf(new Date(year, 0, 1).getTime(), new Date(year + 1, 0, 1).getTime()).then((all) => {
      if (wanted) landings.value = all;
    });
    return () => {
      wanted = false;
    };
  }, [year, changes]);
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
      {landings.value.length === 0 ? (
        <p>{text.notes.past.none}</p>
      ) : (
        <>
          <button type="button" class="button" onClick={once(() => window.print())}>
            <Printer /> {t.print}
          </button>
          <WideTable name={t.title}>
            <Table of={landings.value} />
          </WideTable>
          <p class="soft">{t.rules}</p>
        </>
      )}
    </Page>
  );
}

function Table({ of }: { of: Landing[] }) {
  return (
    <table class="papers-table">
      <thead>
        <tr>
          {[t.day, t.waters, t.aboard, t.species, t.count, t.fate, t.lengths, t.person].map((name) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {of.flatMap(({ trip, aboard, fish }) => {
          const head = [day(trip.opened), trip.ground || t.untold, aboard > 0 ? numeral(aboard) : t.untold];
          const rows = fish.length > 0 ? fish.map(cells) : [[t.none, numeral(0), "", "", ""]];
          return rows.map((row) => (
            <tr key={`${trip.trip} ${row.join()}`}>
              {[...head, ...row].map((cell, i) => (
                <td key={i}>{cell}</td>
              ))}
            </tr>
          ));
        })}
      </tbody>
    </table>
  );
}

const cells = ({ species, person, fate, lengths, count }: Fish): string[] => [
  species ? choiceName("fish", species) : t.untold,
  numeral(count),
  fate ? choiceName("fate", fate) : t.untold,
  lengths
    .sort((a, b) => a - b)
    .map((length) => amount("ruler", length))
    .join("; ") || t.untold,
  person || t.untold,
];
