/** One of a few usual words, or another. */
import { useSignal } from "@preact/signals";
import { once } from "../../shell/guard";
import { text } from "../../text/text";
import { Choices } from "./choices";
import { TextField } from "./text-field";

interface Props {
  label: string;
  choices: { value: string; name: string }[];
  said: string;
  /** Whether it may be another word. */
  others: boolean;
  onValue: (value: string) => void;
}

export function WordChoice({ label, choices, said, others, onValue }: Props) {
  const usual = said === "" || choices.some((choice) => choice.value === said);
  const typing = useSignal(false);
  return (
    <div class="word-choice">
      <Choices label={label} choices={choices} value={said} onChoose={onValue}>
        {others && usual && !typing.value && (
          <button type="button" class="button other" onClick={once(() => (typing.value = true))}>
            {text.parts.otherWord}
          </button>
        )}
      </Choices>
      {(!usual || typing.value) && (
        <TextField
          label={text.parts.typed(label)}
          value={usual ? "" : said}
          onText={(word) => word && onValue(word)}
        />
      )}
    </div>
  );
}
