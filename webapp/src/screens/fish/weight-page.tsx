/** What a fish weighs by its length, and how long it is by its weight; with the spread of fish. */
import { useSignal } from "@preact/signals";
import { useAnswer } from "../../base/desk/ask";
import { type Interval, limits } from "../../base/desk/types/fish.gen";
import { Choices } from "../../base/parts/input/choices";
import { LimitedStepper } from "../../base/parts/input/limited";
import { saySomewhere } from "../../base/parts/input/problem";
import { Page } from "../../base/parts/page";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { about, amount } from "../../base/units/show";
import { stepsFrom } from "../../base/units/steps-from";
import { fishes, usualLength } from "../../state/fish/fishes";

const t = text.fish.weight;

export function WeightPage() {
  const known = useSignal<"length" | "mass">("length");
  const last = fishes.value.findLast(({ length }) => length > 0)?.length ?? usualLength;
  const measures = useSignal({ length: last, girth: 0, mass: 5 });
  const change = (patch: Partial<typeof measures.value>) =>
    (measures.value = { ...measures.value, ...patch });
  const byLength = known.value === "length";
  const { length, girth, mass } = measures.value;
  const { answer, problem } = useAnswer("weight", byLength ? { length, girth } : { mass });
  const of = limits.Measures;
  return (
    <Page title={t.title} back={href("fish")}>
      {problem && <p role="alert">{saySomewhere(problem)}</p>}
      {answer &&
        (byLength ? (
          <Found name={t.mass} of={answer.mass} words={(kg) => about("mass", kg, 0.5)} />
        ) : (
          <Found name={t.length} of={answer.length} words={(m) => about("ruler", m, 0.5)} />
        ))}
      <Choices
        label={t.know}
        choices={[
          { value: "length", name: t.byLength },
          { value: "mass", name: t.byMass },
        ]}
        value={known.value}
        onChoose={(chosen) => (known.value = chosen)}
      />
      {byLength ? (
        <>
          <LimitedStepper
            label={t.length}
            quantity="ruler"
            si={length}
            limits={{ ...of.length, min: 0.15 }}
            onChange={(to) => change({ length: to })}
          />
          <LimitedStepper
            label={t.girth}
            quantity="ruler"
            si={girth}
            limits={of.girth}
            zero={t.none}
            step={stepsFrom("ruler", answer?.girth.mid ?? length / 2)}
            onChange={(to) => change({ girth: to })}
          />
        </>
      ) : (
        <LimitedStepper
          label={t.mass}
          quantity="mass"
          si={mass}
          limits={{ ...of.mass, min: 0.04 }}
          onChange={(to) => change({ mass: to })}
        />
      )}
      {answer && byLength && <p>{t.standard(amount("mass", answer.standard))}</p>}
      {answer && answer.byGirth > 0 && <p>{t.byGirth(amount("mass", answer.byGirth))}</p>}
      <p class="soft">{t.judged}</p>
    </Page>
  );
}

interface FoundProps {
  name: string;
  of: Interval;
  words: (si: number) => string;
}

const Found = ({ name, of, words }: FoundProps) => (
  <section role="status">
    <p class="readout huge">
      {words(of.mid)} <small class="soft">{name}</small>
    </p>
    <p>{t.range(words(of.low), words(of.high))}</p>
  </section>
);
