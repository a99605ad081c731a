/** What a guest takes home: whose page, how they wish to be named, and who else said yes to being on it. */
import { useSignal } from "@preact/signals";
import { Gone } from "../../../base/parts/gone";
import { On } from "../../../base/parts/icons";
import { Pick } from "../../../base/parts/input/pick";
import { Said, useSaving } from "../../../base/parts/input/save-file";
import { TextField } from "../../../base/parts/input/text-field";
import { Page } from "../../../base/parts/page";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";
import { clock } from "../../../base/units/when";
import { mayChange } from "../../../state/crew/role";
import { records, shownTrip, summaries, tripOf } from "../../../state/log/log";
import { mineFirst } from "../../../state/log/names";
import type { Trip } from "../../../state/log/one";
import { recordHref, useTrip } from "../../../state/log/refer";
import { recordWords, timeOf } from "../../../state/notes/words";
import { drawnFor, fishOfPerson, giveKeepsake, peopleOf, photosOfPerson } from "../../../state/out/keepsake";
import { happenedOf, trackOf } from "../../../state/produced/day";
import { fishOf } from "../../../state/produced/effort";
import { Chart } from "../day/chart";
import { Key } from "../day/key";

const t = text.keepsake;

export function KeepsakePage({ id }: { id: string }) {
  useTrip(id);
  const trip = tripOf(id);
  if (summaries.value && !trip) return <Gone back={href("notes")} />;
  if (!trip || shownTrip.value !== trip.trip) return <main class="page" />;
  return (
    <Page title={t.title} back={href("notes", "trip", trip.trip)} kind="keepsake">
      <Asked trip={trip} />
    </Page>
  );
}

function Asked({ trip }: { trip: Trip }) {
  const all = records.value;
  const people = mineFirst(peopleOf(all), !mayChange());
  const chosen = useSignal<string | undefined>(undefined);
  const as = useSignal<string | undefined>(undefined);
  const yes = useSignal<string[]>([]);
  const withMap = useSignal(true);
  const { said, saving } = useSaving();
  const [first] = people;
  if (first === undefined) return <p>{t.nobody}</p>;
  // The notes may come after the page.
  const whose = chosen.value ?? first;
  const own = fishOfPerson(all, whose);
  const photos = photosOfPerson(all, whose).length;
  const unnamed = fishOfPerson(all, "").filter((fish) => fishOf(fish).landed);
  const shown = drawnFor(all, whose);
  const track = trackOf(shown);
  const happened = happenedOf(shown);
  const give = () => {
    const parts = [...document.querySelectorAll(".keepsake .day-chart, .keepsake .day-key")];
    const drawing = withMap.value ? parts.map(({ outerHTML }) => outerHTML).join("") : undefined;
    return giveKeepsake(trip, all, {
      whose,
      as: as.value?.trim() || whose,
      others: yes.value.filter((name) => name !== whose),
      drawing,
    });
  };
  return (
    <>
      <p>{t.what}</p>
      <Pick
        label={t.whose}
        options={people.map((name) => ({ id: name, name }))}
        value={whose}
        onPick={(name) => {
          chosen.value = name;
          as.value = undefined;
        }}
      />
      <TextField label={t.as} value={as.value ?? whose} onText={(name) => (as.value = name)} />
      {people.length > 1 && (
        <fieldset class="choices">
          <legend>{t.others}</legend>
          {people
            .filter((name) => name !== whose)
            .map((name) => (
              <Tick
                key={name}
                name={t.saidYes(name)}
                on={yes.value.includes(name)}
                onTick={(on) => {
                  yes.value = on ? [...yes.value, name] : yes.value.filter((one) => one !== name);
                }}
              />
            ))}
        </fieldset>
      )}
      {track.length > 0 && (
        <>
          <Tick name={t.map} on={withMap.value} onTick={(on) => (withMap.value = on)} />
          {withMap.value && (
            <>
              <Chart track={track} happened={happened} flows={[]} />
              <Key flows={false} happened={happened} />
            </>
          )}
        </>
      )}
      <p>{t.fishTitle(String(own.length))}</p>
      {photos > 0 && <p>{t.photosOf(numeral(photos))}</p>}
      {unnamed.length > 0 && (
        <>
          <p>{t.unnamed}</p>
          {unnamed.map((fish) => (
            <a key={fish.id} class="button" href={recordHref(fish)}>
              {clock(timeOf(fish))} {recordWords(fish)} <On />
            </a>
          ))}
        </>
      )}
      <button type="button" class="button primary" onClick={saving(give)}>
        {t.save}
      </button>
      <Said of={said} />
    </>
  );
}

interface TickProps {
  name: string;
  on: boolean;
  onTick: (on: boolean) => void;
}

const Tick = ({ name, on, onTick }: TickProps) => (
  <label class="keepsake-tick">
    <input type="checkbox" checked={on} onChange={(event) => onTick(event.currentTarget.checked)} />
    {name}
  </label>
);
