/** Kept: bleed it, and how long that has been going on. */
import { useSeconds } from "../../../base/parts/seconds";
import { now } from "../../../base/position/moment";
import { text } from "../../../base/text/text";
import { change } from "../../../state/fish/fishes";
import { tell } from "../../../state/fish/noting";
import { BagStop } from "../parts/bag";
import { Bleeding } from "../parts/drawings";
import { secondsSince, sinceWords, spanWords } from "../parts/times";
import { FootButton, ofFish, StepPage, Ticks, toStep } from "./step";

const t = text.fish.bleed;

/** So long after bleeding it may be gutted, s: Olsen and others 2014, on cod. */
const gutAfter = 30 * 60;

export const BleedPage = ofFish(({ fish }) => {
  useSeconds();
  const cut = () => {
    change(fish.id, { bled: now(), out: null });
    tell(fish.id, { bled: Date.now() });
  };
  const left = fish.bled ? gutAfter - secondsSince(fish.bled) : 0;
  return (
    <StepPage
      fish={fish}
      step="bleed"
      foot={
        <>
          <FootButton onTap={() => toStep(fish.id, "judge")}>{text.parts.back}</FootButton>
          {!fish.bled && (
            <FootButton primary onTap={cut}>
              {t.cut}
            </FootButton>
          )}
          <FootButton primary={fish.bled !== null} onTap={() => toStep(fish.id, "slush")}>
            {text.fish.next}
          </FootButton>
        </>
      }
    >
      <BagStop />
      <Bleeding words={t.drawing} />
      {fish.bled && (
        <section>
          <p class="large-words" role="timer">
            {t.bleeding(sinceWords(fish.bled))}
          </p>
          <p>{left > 0 ? t.gut(spanWords(Math.ceil(left / 60) * 60)) : t.gutNow}</p>
        </section>
      )}
      <Ticks fish={fish} step="bleed" advice={t.advice} />
      <p>{t.howLong}</p>
      <p class="soft">{text.fish.locked}</p>
    </StepPage>
  );
});
