/** One of a few, all in sight. */
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

interface Props<T extends string> {
  label: string;
  choices: readonly { value: T; name: string }[];
  value: T;
  onChoose: (value: T) => void;
  /** After the choices, in their row. */
  children?: ComponentChildren;
}

export function Choices<T extends string>({ label, choices, value, onChoose, children }: Props<T>) {
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
        {children}
      </div>
    </fieldset>
  );
}
