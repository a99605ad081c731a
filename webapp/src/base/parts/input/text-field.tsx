/** A text to type. It is passed on when one is done with it, leaves the page, or has paused. */
import { useEffect, useId, useRef } from "preact/hooks";
import { useLate } from "./late";

interface Props {
  label: string;
  value: string;
  onText: (text: string) => void;
  most?: number;
  /** ms of rest before it is passed on; 0: with every letter. */
  pause?: number;
  long?: boolean;
  /** Lines of a long one that are in sight. */
  rows?: number;
  hint?: string;
  /** Why it was not taken. */
  problem?: string | undefined;
}

export function TextField({
  label,
  value,
  onText,
  most = 200,
  pause = 3000,
  long,
  rows = 5,
  hint,
  problem,
}: Props) {
  const id = useId();
  const late = useLate(value, onText, pause);
  const field = useRef<HTMLDivElement>(null);
  // What is wrong may be found by a button further down.
  useEffect(() => {
    if (problem) field.current?.scrollIntoView({ block: "nearest" });
  }, [problem]);
  const shared = {
    id,
    value: late.value,
    maxLength: most,
    autocomplete: "off",
    "aria-describedby": `${id}-more`,
    onInput: (event: { currentTarget: { value: string } }) => late.change(event.currentTarget.value),
    onBlur: late.pass,
  };
  return (
    <div class="pick" ref={field}>
      <label for={id}>{label}</label>
      {long ? (
        <textarea rows={rows} {...shared} />
      ) : (
        <input
          enterkeyhint="done"
          onKeyDown={(event) => event.key === "Enter" && event.currentTarget.blur()}
          {...shared}
        />
      )}
      <p id={`${id}-more`} class={problem ? "field-trouble" : "soft"} role={problem ? "alert" : undefined}>
        {problem ?? hint}
      </p>
    </div>
  );
}
