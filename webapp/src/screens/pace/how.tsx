/** How Pace works for this person: over what it averages, whether it speaks, whether the screen stays on. */
import { Choices } from "../../base/parts/input/choices";
import { Page } from "../../base/parts/page";
import { awake } from "../../base/phone/awake";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { voices } from "../../state/pace/aloud";
import { paceSettings, set, windows } from "../../state/pace/settings";

const t = text.pace.howTo;

export function HowPage() {
  const { window, aloud, awake: keepOn } = paceSettings.value;
  const [voice] = voices.value;
  return (
    <Page title={t.title} back={href("pace")}>
      <Choices
        label={t.window}
        choices={windows.map((n) => ({ value: String(n), name: t.seconds(n) }))}
        value={String(window)}
        onChoose={(value) => set({ window: Number(value) })}
      />
      <p class="soft">{t.windowWhy}</p>
      <YesNo label={t.aloud} value={aloud} onChoose={(aloud) => set({ aloud })} />
      <p class="soft">{voice ? t.voice(voice.name) : t.noVoice}</p>
      {voice && (
        <button type="button" class="button" onClick={once(() => sample(voice))}>
          {t.trySaying}
        </button>
      )}
      <YesNo label={t.awake} value={keepOn} onChoose={(awake) => set({ awake })} />
      <p class="soft">{t.awakeCost}</p>
      <p role="status">
        {"wakeLock" in navigator ? (awake.value ? t.awakeNow.yes : t.awakeNow.no) : t.awakeNever}
      </p>
    </Page>
  );
}

function sample(voice: SpeechSynthesisVoice): void {
  const saying = new SpeechSynthesisUtterance(t.sample);
  saying.voice = voice;
  speechSynthesis.speak(saying);
}

interface YesNoProps {
  label: string;
  value: boolean;
  onChoose: (value: boolean) => void;
}

const YesNo = ({ label, value, onChoose }: YesNoProps) => (
  <Choices
    label={label}
    choices={[
      { value: "yes", name: t.yes },
      { value: "no", name: t.no },
    ]}
    value={value ? "yes" : "no"}
    onChoose={(chosen) => onChoose(chosen === "yes")}
  />
);
