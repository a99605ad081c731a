/** Reads a page out, with a voice that is on the phone: out there no other is heard. */
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Cross, Speaker } from "../../base/parts/icons";
import { once } from "../../base/shell/guard";
import { text } from "../../base/text/text";
import { utter, voices } from "../../state/pace/aloud";

const reading = signal(false);

function hush(): void {
  reading.value = false;
  if ("speechSynthesis" in window) speechSynthesis.cancel();
}

/** Nothing where the phone has no such voice. */
export function ReadOut({ words }: { words: string[] }) {
  useEffect(() => hush, [words.join()]);
  const voice = voices.value[0];
  if (!voice) return null;
  const read = () => {
    reading.value = true;
    const last = words.map((sentence) => utter(sentence, voice)).at(-1);
    if (last) last.onend = () => (reading.value = false);
  };
  const t = text.crew.reading;
  return (
    <button type="button" class="button" onClick={once(reading.value ? hush : read)}>
      {reading.value ? <Cross /> : <Speaker />}
      <span class="visually-hidden">{reading.value ? t.hush : t.aloud}</span>
    </button>
  );
}
