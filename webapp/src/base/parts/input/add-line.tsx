/** One line to type, and the button that takes it. */
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

interface Props {
  label: string;
  most: number;
  onAdd: (typed: string) => void;
  children: ComponentChildren;
}

export function AddLine({ label, most, onAdd, children }: Props) {
  const id = useId();
  const typed = useSignal("");
  return (
    <form
      class="one-line"
      onSubmit={(event) => {
        event.preventDefault();
        const said = typed.value.trim();
        typed.value = "";
        if (said) onAdd(said);
      }}
    >
      <div class="pick">
        <label for={id}>{label}</label>
        <input
          id={id}
          value={typed.value}
          maxLength={most}
          autocomplete="off"
          enterkeyhint="done"
          onInput={(event) => {
            typed.value = event.currentTarget.value;
          }}
        />
      </div>
      <button type="submit" class="button">
        {children}
      </button>
    </form>
  );
}
