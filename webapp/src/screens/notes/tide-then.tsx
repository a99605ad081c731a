/** The tide, the current and the light when and where something was noted: computed each time, never stored. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Hour } from "../../base/desk/types/day.gen";
import { text } from "../../base/text/text";
import { about, age } from "../../base/units/show";
import { type Folded, number } from "../../state/entry/fold";
import { timeOf } from "../../state/notes/words";
import { hoursOf } from "../../state/tide/water";

const t = text.tide;

/** What is told with the hour of the tide. */
const kinds = ["mark", "touch", "clear", "pass"];

export function TideThen({ record }: { record: Folded }) {
  const hour = useSignal<Hour | undefined>(undefined);
  const [at, lat, lon] = [timeOf(record), number(record, "lat"), number(record, "lon")];
  const told = kinds.includes(record.kind) && lat !== undefined && lon !== undefined;
  useEffect(() => {
    if (!told) return;
    let wanted = true;
    hoursOf([{ at, lat, lon }]).then((hours) => {
      if (wanted) hour.value = hours?.[0];
    });
    return () => {
      wanted = false;
    };
  }, [told, at, lat, lon, hour]);
  return hour.value ? <p>{t.back(hourWords(hour.value))}</p> : null;
}

function hourWords({ tide, stream, sky }: Hour): string {
  const parts: string[] = [];
  if (tide) parts.push(t.hour(t.turns[tide.last], age(tide.since * 1000), about("depth", tide.value, 0.1)));
  if (stream) {
    const turn = t.turns[stream.value < 0 ? "ebb" : "flood"];
    parts.push(t.stream(turn, about("speed", Math.abs(stream.value), 0.1)));
  }
  return [...parts, t.skies[sky]].join(", ");
}
