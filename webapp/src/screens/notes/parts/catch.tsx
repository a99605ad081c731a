/** What a trip was: how many fish, by species and rod, from when to when, and who was aboard. */
import { apart } from "../../../base/text/apart";
import { text } from "../../../base/text/text";
import { clock, day, moment } from "../../../base/units/when";
import type { Folded } from "../../../state/entry/fold";
import { words } from "../../../state/entry/fold";
import { rodWords } from "../../../state/gear/names";
import { eachOnce } from "../../../state/log/names";
import type { Trip } from "../../../state/log/one";
import { type Catch, type Caught, catchOf } from "../../../state/notes/catch";
import { choiceName } from "../../../state/notes/words";

const t = text.notes.catch;

const fates = ({ kept, released, untold }: Caught, off = 0): string =>
  [
    kept > 0 && t.kept(kept),
    released > 0 && t.released(released),
    untold > 0 && t.untold(untold),
    off > 0 && t.off(off),
  ]
    .filter(Boolean)
    .join(" · ");

export function CatchOfTrip({ of, records }: { of: Trip; records: Folded[] }) {
  const caught = catchOf(records);
  const { all, off, bySpecies, byRod } = caught;
  const people = eachOnce(
    records
      .filter(({ kind, struck }) => kind === "person" && !struck)
      .map((person) => words(person, "name") ?? ""),
  );
  return (
    <>
      <section class="form">
        <h2>{t.title}</h2>
        <p class="large-words">{fates(all, off) || t.none}</p>
        <OffWhy of={caught} />
        <Rows of={bySpecies} name={(species) => choiceName("fish", species) || t.noSpecies} />
        {byRod.length > 0 && <h2>{t.byRod}</h2>}
        <Rows of={byRod} name={(rod) => rodWords(rod) || t.noRod} />
      </section>
      <p>{times(of)}</p>
      {people.length > 0 && <p>{t.aboard(people.map(apart).join(", "))}</p>}
    </>
  );
}

/** How many got off, and why, where that was told of any. */
export function OffWhy({ of: { off, offWhy } }: { of: Pick<Catch, "off" | "offWhy"> }) {
  const why = [...offWhy].filter(([one]) => one !== "");
  if (why.length === 0) return null;
  const each = why.map(([one, count]) => `${count} × ${apart(choiceName("off", one))}`).join(", ");
  return (
    <p>
      {t.off(off)}: {each}
    </p>
  );
}

const Rows = ({ of, name }: { of: Caught[]; name: (of: string) => string }) => (
  <ul class="prose">
    {of.map((one) => (
      <li key={one.of}>
        <b>{apart(name(one.of))}</b>: {fates(one)}
      </li>
    ))}
  </ul>
);

/** From the first note to the last. */
function times({ first, opened, last }: Trip): string {
  const from = Math.min(first ?? opened, opened || Number.MAX_VALUE);
  const to = Math.max(from, last);
  return t.times(moment(from), day(from) === day(to) ? clock(to) : moment(to));
}
