/** A field of a record to tell or to change. What is told is passed on as it is; nothing has to be told. */

import { useLate } from "../../base/parts/input/late";
import { Stepper } from "../../base/parts/input/stepper";
import { TextField } from "../../base/parts/input/text-field";
import { WordChoice } from "../../base/parts/input/word-choice";
import { text } from "../../base/text/text";
import { units } from "../../base/units/settings";
import { scaleOf, stepped } from "../../base/units/units";
import { turned } from "../../base/units/when";
import { rodWords, spoonWords } from "../../state/gear/names";
import type { Field } from "../../state/notes/kinds";
import type { RodThen } from "../../state/notes/snapshot";
import { choicesOf, fieldName } from "../../state/notes/words";

interface Props {
  field: Field;
  value: unknown;
  rods: RodThen[];
  onValue: (value: string | number) => void;
}

const t = text.notes;

export function FieldInput({ field, value, rods, onValue }: Props) {
  const label = fieldName(field.name);
  const said = typeof value === "string" ? value : "";
  switch (field.as) {
    case "words":
      return (
        <TextField
          label={label}
          value={said}
          onText={onValue}
          {...(field.long && { long: true, most: 3000 })}
        />
      );
    case "choice":
      return (
        <WordChoice
          label={label}
          choices={choicesOf(field.name)}
          said={said}
          others={!field.only}
          onValue={onValue}
        />
      );
    case "rod":
      return (
        <WordChoice
          label={label}
          choices={rods.map((rod, i) => {
            const name = t.oneRod(i + 1, rod.place);
            return { value: name, name: rodWords(name) };
          })}
          said={said}
          others={rods.length === 0}
          onValue={onValue}
        />
      );
    case "spoon":
      return <TextField label={label} value={spoonWords(said)} onText={onValue} />;
    default:
      return (
        <NumberInput
          field={field}
          value={typeof value === "number" ? value : undefined}
          onValue={(si) => si !== undefined && onValue(si)}
        />
      );
  }
}

type NumberField = Extract<Field, { as: "number" | "course" | "count" }>;

function NumberInput({
  field,
  value,
  onValue,
}: {
  field: NumberField;
  value: number | undefined;
  onValue: (value: number | undefined) => void;
}) {
  const late = useLate(field.as === "course" ? value : (value ?? 0), onValue);
  const quantity = field.as === "number" ? field.quantity : field.as === "course" ? "angle" : "count";
  const step = (si: number, by: 1 | -1): number => {
    if (field.as === "course") return turned(si, by);
    const from = si === 0 && by > 0 && field.as === "number" ? field.start : si;
    return Math.max(0, stepped(from, by, scaleOf(quantity, units())));
  };
  return (
    <Stepper
      label={fieldName(field.name)}
      quantity={quantity}
      si={late.value ?? 0}
      step={step}
      onChange={(si) => late.change(Math.max(si, 0))}
      // A course of 0 is north; any other number is not told by being none.
      {...((field.as !== "course" || late.value === undefined) && { zero: t.unset })}
    />
  );
}
