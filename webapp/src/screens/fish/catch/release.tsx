/** Letting it go so that it lives. */

import { Warning } from "../../../base/parts/icons";
import { text } from "../../../base/text/text";
import { rounded } from "../../../base/units/show";
import { change } from "../../../state/fish/fishes";
import { warmthNow } from "../../../state/instruments/taken";
import { water } from "../../../state/spread/water";
import { Releasing } from "../parts/drawings";
import { FootButton, OutOfWater, ofFish, StepPage, Ticks, toStep } from "./step";

const t = text.fish.release;

/** Water from which many die, °C: Maryland DNR's worst days and RMC 1990. */
const warm = 24;

const degrees = (celsius: number) => rounded("temperature", celsius);

export const ReleasePage = ofFish(({ fish }) => {
  const sea = degrees(water.value.temperature);
  const gone = () => {
    change(fish.id, { out: null });
    toStep(fish.id, "over");
  };
  return (
    <StepPage
      fish={fish}
      step="release"
      foot={
        <>
          <FootButton onTap={() => toStep(fish.id, fish.length > 0 ? "judge" : "measure")}>
            {text.parts.back}
          </FootButton>
          <FootButton primary onTap={gone}>
            {t.gone}
          </FootButton>
        </>
      }
    >
      <Releasing words={t.drawing} />
      <OutOfWater fish={fish} />
      {water.value.temperature >= warm ? (
        <p class="notice">
          <span>
            <Warning /> {t.warm(sea, degrees(warm))}
          </span>
        </p>
      ) : (
        <p class="soft">{t.cool(sea, warmthNow() !== undefined)}</p>
      )}
      <Ticks fish={fish} step="release" advice={t.advice} />
      <p>{t.minutes}</p>
      <p class="soft">{t.warmSource(degrees(25), degrees(16), degrees(23.5))}</p>
    </StepPage>
  );
});
