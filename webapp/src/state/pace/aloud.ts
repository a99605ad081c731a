/** Says speed and beat aloud, with a voice that is on the phone: out there no other is heard. */
import { effect, signal } from "@preact/signals";
import { text } from "../../base/text/text";
import { numeral } from "../../base/units/show";
import { fromSi } from "../../base/units/units";
import { beat, isFresh } from "./beat";
import { holds } from "./motion";
import { pace } from "./pace";
import { paceSettings } from "./settings";

/** Voices of this phone for the language of the app. */
export const voices = signal<SpeechSynthesisVoice[]>([]);

const look = () => {
  voices.value = speechSynthesis
    .getVoices()
    .filter((voice) => voice.localService && voice.lang.toLowerCase().startsWith(text.language));
};

/** The same is said again after so many ms, something else at once. */
const every = 30_000;

/** What there is to say now. */
export function words(): string {
  const now = pace.value;
  const said: string[] = [];
  if (now && holds(now.motion)) {
    said.push(text.pace.verdicts[now.verdict]);
    said.push(text.pace.aloud.knots(numeral(fromSi(now.water.mid, "kn"), 0.1)));
  }
  if (beat.value && isFresh()) said.push(text.pace.aloud.beat(numeral(fromSi(beat.value.beat.mid, "/min"))));
  return said.join(". ");
}

/** What makes it worth saying anew: not a small change of the number. */
const gist = () =>
  [pace.value && holds(pace.value.motion) && pace.value.verdict, beat.value && isFresh()].join();

/** Says this after whatever is being said. */
export function utter(what: string, voice: SpeechSynthesisVoice): SpeechSynthesisUtterance {
  const saying = new SpeechSynthesisUtterance(what);
  saying.voice = voice;
  saying.lang = voice.lang;
  speechSynthesis.speak(saying);
  return saying;
}

export function keepSaying(): void {
  if (!("speechSynthesis" in window)) return;
  look();
  speechSynthesis.addEventListener?.("voiceschanged", look);
  let last = { gist: "", at: Number.NEGATIVE_INFINITY };
  effect(() => {
    const voice = voices.value[0];
    const now = gist();
    if (!paceSettings.value.aloud || !voice || speechSynthesis.speaking) return;
    if (now === last.gist && performance.now() - last.at < every) return;
    const what = words();
    if (!what) return;
    last = { gist: now, at: performance.now() };
    utter(what, voice);
  });
}
