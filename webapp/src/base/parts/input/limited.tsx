/** A stepper for a number that has limits and stands for itself: beyond them it stays as it was, and says so. */
import { useSignal } from "@preact/signals";
import type { ComponentProps } from "preact";
import type { Problem } from "../../desk/types/codec.gen";
import { sayProblem } from "./problem";
import { Stepper } from "./stepper";

interface Props extends Omit<ComponentProps<typeof Stepper>, "problem"> {
  limits: { min: number; max: number };
}

export function LimitedStepper({ limits: { min, max }, onChange, ...rest }: Props) {
  const problem = useSignal<Problem | undefined>(undefined);
  const take = (si: number) => {
    const outside = si < min || si > max;
    problem.value = outside ? { field: "", code: "range", text: "", min, max } : undefined;
    if (!outside) onChange(si);
  };
  return (
    <Stepper {...rest} onChange={take} problem={problem.value && sayProblem(problem.value, rest.quantity)} />
  );
}
