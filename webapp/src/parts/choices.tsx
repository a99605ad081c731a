/** One of a few, all in sight. */
import { useId } from "preact/hooks";

interface Props<T extends string> {
  label: string;
  choices: readonly { value: T; name: string }[];
  value: T;
  onChoose: (value: T) => void;
}

export function Choices<T extends string>({ label, choices, value, onChoose }: Props<T>) {
  const name = useId();
  return (
    <fieldset class="choices">
      <legend>{label}</legend>
      <div class="choice-row">
        {choices.map((choice) => (
          <label key={choice.value} class="choice">
            <input
              type="radio"
              name={name}
              checked={choice.value === value}
              onChange={() => onChoose(choice.value)}
            />
            <span>{choice.name}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
