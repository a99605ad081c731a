/** Reads the day out, with a voice that is on the phone: out there no other is heard. */
import { useEffect } from "preact/hooks";
import type { Answer } from "../../base/desk/types/day.gen";
import { Speaker } from "../../base/parts/icons";
import { once } from "../../base/shell/guard";
import { text } from "../../base/text/text";
import { clock } from "../../base/units/when";
import { utter, voices } from "../../state/pace/aloud";
import { height, speed } from "./words";

const t = text.tide;

/** What there is to say of a day, in sentences. */
export function dayWords({ tide, stream, light }: Answer, day: string): string[] {
  const marks = (of: Answer["tide"], say: (value: number) => string) =>
    (of?.marks ?? []).map(({ time, turn, value }) =>
      turn.startsWith("slack")
        ? `${clock(time * 1000)}: ${t.turns[turn]}.`
        : `${clock(time * 1000)}: ${t.turns[turn]}, ${say(value)}.`,
    );
  const sky = light.events.map(({ time, change }) => `${clock(time * 1000)}: ${t.changes[change]}.`);
  return [
    `${day}. ${t.caution}`,
    `${t.heights}.`,
    ...marks(tide, height),
    `${t.currents}.`,
    ...marks(stream, speed),
    `${t.light}.`,
    ...sky,
  ];
}

/** Nothing where the phone has no such voice. */
export function ReadDay({ of, day }: { of: Answer; day: string }) {
  useEffect(() => () => globalThis.speechSynthesis?.cancel(), [day]);
  const voice = voices.value[0];
  if (!voice) return null;
  const read = () => {
    if (speechSynthesis.speaking) speechSynthesis.cancel();
    else for (const sentence of dayWords(of, day)) utter(sentence, voice);
  };
  return (
    <button type="button" class="button" onClick={once(read)}>
      <Speaker /> {text.crew.reading.aloud}
    </button>
  );
}
