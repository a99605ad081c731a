/** Measuring it: how long, and what it is. Nothing is judged that was not measured. */
import { limits } from "../../../base/desk/types/fish.gen";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { WordChoice } from "../../../base/parts/input/word-choice";
import { text } from "../../../base/text/text";
import { stepsFrom } from "../../../base/units/steps-from";
import { change, usualLength } from "../../../state/fish/fishes";
import { tell } from "../../../state/fish/noting";
import { inForce, speciesOf } from "../../../state/rules/rules";
import { Measuring } from "../parts/drawings";
import { speciesName } from "../parts/names";
import { letGo } from "./judge";
import { FootButton, OutOfWater, ofFish, StepPage, toStep } from "./step";

const t = text.fish.measure;

export const MeasurePage = ofFish(({ fish }) => {
  const next = () => {
    tell(fish.id, { fish: fish.species, length: fish.length });
    toStep(fish.id, "judge");
  };
  return (
    <StepPage
      fish={fish}
      step="measure"
      foot={
        <>
          <FootButton onTap={() => toStep(fish.id, "land")}>{text.parts.back}</FootButton>
          <FootButton decides onTap={() => letGo(fish)}>
            {t.letGo}
          </FootButton>
          <FootButton primary off={fish.length === 0} onTap={next}>
            {text.fish.next}
          </FootButton>
        </>
      }
    >
      <Measuring words={t.drawing} />
      <ol class="captions">
        {t.advice.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ol>
      <LimitedStepper
        label={t.length}
        quantity="ruler"
        si={fish.length}
        limits={{ min: 0, max: limits.Measures.length.max }}
        step={stepsFrom("ruler", usualLength)}
        onChange={(length) => change(fish.id, { length })}
        zero={t.none}
      />
      {fish.length === 0 && <p>{t.first}</p>}
      <OutOfWater fish={fish} />
      <WordChoice
        label={t.species}
        choices={kinds().map((value) => ({ value, name: speciesName(value) }))}
        said={fish.species}
        others
        onValue={(species) => change(fish.id, { species })}
      />
      <p class="soft">
        {t.outWhy} {text.fish.practice}
      </p>
      <p class="soft">{text.fish.source(t.source)}</p>
    </StepPage>
  );
});

/** What the rules know, and what is usually noted. */
const kinds = (): string[] => [
  ...new Set([
    ...speciesOf(inForce()),
    ...Object.keys(text.notes.choices.fish ?? {}).filter((kind) => kind !== "lost"),
  ]),
];
