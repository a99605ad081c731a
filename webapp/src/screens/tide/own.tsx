/** What the boat's own notes say of the tide: hookups by its hour, and no judgement. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { text } from "../../base/text/text";
import { numeral } from "../../base/units/show";
import { hookupsByTide, type TideHour } from "../../state/notes/by-tide";

const t = text.tide;

export function OwnRecord({ lat, lon }: { lat: number; lon: number }) {
  const hours = useSignal<TideHour[]>([]);
  useEffect(() => {
    let wanted = true;
    // A log that cannot be read is told where it is read.
    hookupsByTide({ lat, lon }).then(
      (all) => {
        if (wanted) hours.value = all;
      },
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, [lat, lon, hours]);
  if (hours.value.length === 0) return null;
  return (
    <section>
      <h2>{t.own}</h2>
      <ul class="tide-marks">
        {hours.value.map(({ turn, hour, count }) => (
          <li key={`${turn} ${hour}`}>
            <b>{text.notes.past.hookups(count)}</b>{" "}
            {t.ownHour(numeral(hour), numeral(hour + 1), t.turns[turn])}
          </li>
        ))}
      </ul>
      <p class="soft">{t.ownWhat}</p>
    </section>
  );
}
