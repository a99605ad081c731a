/**
 * A number with a button on either side: tap to step, hold to go on stepping, tap the number to type it. The
 * number is shown and typed in the person's units and passed on in SI.
 */
import type { ComponentChildren } from "preact";
import { useEffect, useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import { echo, once } from "../../shell/guard";
import { decimalMark } from "../../text/locale";
import { text } from "../../text/text";
import { units } from "../../units/settings";
import { exact, unitName } from "../../units/show";
import { parse, type Quantity, scaleOf, stepped, toSi } from "../../units/units";
import { Minus, Plus } from "../icons";

interface Props {
  label: string;
  quantity: Quantity;
  si: number;
  onChange: (si: number) => void;
  /** What the next tap gives, where it is not the next step of the scale. */
  step?: (si: number, by: 1 | -1) => number;
  /** Why the last change was not taken. */
  problem?: string | undefined;
  /** Under the number: what it belongs to. */
  note?: ComponentChildren;
  /** Before the number: “±”. */
  before?: string | undefined;
  /** Said in place of the number when it is zero: “none”. */
  zero?: string;
}

export function Stepper({ label, quantity, si, onChange, step, problem, note, before, zero }: Props) {
  const [typing, setTyping] = useState<string>();
  const [unreadable, setUnreadable] = useState(false);
  const id = useId();
  const latest = useRef(si);
  const number = useRef<HTMLButtonElement>(null);
  const byKey = useRef(false);
  // Typed by key, the keyboard goes on from the number.
  useLayoutEffect(() => {
    if (typing === undefined && byKey.current) number.current?.focus();
    byKey.current = false;
  }, [typing]);
  latest.current = si;

  const by = (direction: 1 | -1) => {
    setUnreadable(false);
    const next = step
      ? step(latest.current, direction)
      : stepped(latest.current, direction, scaleOf(quantity, units()));
    latest.current = next;
    onChange(next);
  };

  const none = si === 0 && zero;
  // Where there is no number yet none is changed, and 0 may be one.
  const written = none ? "" : exact(quantity, si);

  const take = (typed: string) => {
    setTyping(undefined);
    if (typed.trim() === "" || typed === written) return setUnreadable(false);
    const read = parse(typed, decimalMark);
    setUnreadable(read === undefined);
    if (read !== undefined) onChange(toSi(read, scaleOf(quantity, units()).unit));
  };

  const trouble = unreadable ? text.problems.notANumber(none || written) : problem;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset brings a frame and a legend that cannot be laid out here
    <div class="stepper" role="group" aria-label={label}>
      <StepButton name={text.parts.less(label)} by={() => by(-1)}>
        <Minus />
      </StepButton>
      {typing === undefined ? (
        <button
          type="button"
          class="stepper-value"
          ref={number}
          id={id}
          aria-describedby={trouble ? `${id}-trouble` : undefined}
          onClick={once(() => setTyping(written))}
        >
          <span class="readout">
            {before}
            {none || written} {!none && <small>{unitName(quantity)}</small>}
          </span>
          <span class="stepper-label">
            {label}
            {note && <span class="soft"> {note}</span>}
          </span>
          <span class="visually-hidden">{text.parts.tapToType}</span>
        </button>
      ) : (
        <TypedNumber
          label={`${label}, ${unitName(quantity)}`}
          says={trouble && `${id}-trouble`}
          typed={typing}
          negative={si < 0 || quantity === "area" || quantity === "temperature"}
          onKey={() => {
            byKey.current = true;
          }}
          onTake={take}
        />
      )}
      <StepButton name={text.parts.more(label)} by={() => by(1)}>
        <Plus />
      </StepButton>
      <p class="field-trouble" id={`${id}-trouble`} role="alert">
        {trouble}
      </p>
    </div>
  );
}

interface TypedProps {
  label: string;
  /** What says why the last one was not taken. */
  says: string | undefined;
  typed: string;
  negative: boolean;
  /** Typing is ended by a key. */
  onKey: () => void;
  onTake: (typed: string) => void;
}

function TypedNumber({ label, says, typed, negative, onKey, onTake }: TypedProps) {
  const input = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => input.current?.select(), []);
  // A page that is left, or pocketed with its phone, takes what is typed so far.
  useEffect(() => {
    const left = () => input.current?.blur();
    const hidden = () => document.visibilityState === "hidden" && left();
    addEventListener("pagehide", left);
    document.addEventListener("visibilitychange", hidden);
    return () => {
      removeEventListener("pagehide", left);
      document.removeEventListener("visibilitychange", hidden);
    };
  }, []);
  return (
    <input
      ref={input}
      class="stepper-value readout"
      // The numeric keypad of some phones has no minus.
      inputMode={negative ? "text" : "decimal"}
      autocomplete="off"
      enterkeyhint="done"
      aria-label={label}
      aria-describedby={says}
      defaultValue={typed}
      onKeyDown={(event) => {
        if (event.key === "Escape") event.currentTarget.value = typed;
        if (event.key !== "Enter" && event.key !== "Escape") return;
        // The same key would press the number, which has the focus next, and open it again.
        event.preventDefault();
        onKey();
        event.currentTarget.blur();
      }}
      onBlur={(event) => onTake(event.currentTarget.value)}
    />
  );
}

const holdAfter = 450;
const holdEvery = 100;

/** Steps on a tap; while held it goes on stepping. */
function StepButton({
  name,
  by,
  children,
}: {
  name: string;
  by: () => void;
  children: preact.ComponentChildren;
}) {
  const timer = useRef<ReturnType<typeof setInterval>>(undefined);
  const held = useRef(false);
  const stepping = useRef(by);
  stepping.current = by;

  const release = () => clearInterval(timer.current);
  useEffect(() => release, []);
  const press = (event: PointerEvent) => {
    if (event.button !== 0) return;
    held.current = false;
    release();
    timer.current = setTimeout(() => {
      held.current = true;
      timer.current = setInterval(() => stepping.current(), holdEvery);
    }, holdAfter);
  };

  return (
    <button
      type="button"
      class="step"
      aria-label={name}
      onPointerDown={press}
      onPointerUp={release}
      onPointerLeave={release}
      onPointerCancel={release}
      onContextMenu={(event) => event.preventDefault()}
      onClick={once(() => {
        if (!held.current) by();
        held.current = false;
      }, echo.step)}
    >
      {children}
    </button>
  );
}
