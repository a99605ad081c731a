/** Bringing it in: what everybody aboard does. */

import { Choices } from "../../../base/parts/input/choices";
import { useSeconds } from "../../../base/parts/seconds";
import { goInstead } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import type { Advice } from "../../../base/text/en/fish";
import { text } from "../../../base/text/text";
import { clock } from "../../../base/units/when";
import { words as wordsOf } from "../../../state/entry/fold";
import { change, type Fish } from "../../../state/fish/fishes";
import { isOf, mayBeOf, takeBack, tell } from "../../../state/fish/noting";
import { rodWords } from "../../../state/gear/names";
import { refer } from "../../../state/log/refer";
import { writerWords } from "../../../state/notes/words";
import { BagStop } from "../parts/bag";
import { Landing } from "../parts/drawings";
import { sinceWords } from "../parts/times";
import { useHelm } from "./helm";
import { FootButton, ofFish, StepPage, Ticks, toStep } from "./step";

const t = text.fish.land;

export const LandPage = ofFish(({ fish }) => {
  useSeconds();
  const helm = useHelm();
  return (
    <StepPage
      fish={fish}
      step="land"
      foot={
        <>
          <FootButton decides onTap={() => mistake(fish)}>
            {t.mistake}
          </FootButton>
          <FootButton decides onTap={() => gotOff(fish)}>
            {t.gotOff}
          </FootButton>
          <FootButton primary onTap={() => toStep(fish.id, "measure")}>
            {text.fish.next}
          </FootButton>
        </>
      }
    >
      <BagStop />
      <WhichRod fish={fish} />
      <Landing words={t.drawing} />
      <p role="timer">{t.since(sinceWords(fish.up))}</p>
      <Ticks fish={fish} step="land" advice={withHelm(helm)} />
    </StepPage>
  );
});

/** Of two hookups at once only who stands there knows which one this is. */
function WhichRod({ fish }: { fish: Fish }) {
  const all = mayBeOf(fish);
  if (all.length < 2) return null;
  return (
    <Choices
      label={t.whichRod}
      choices={all.map((mark) => {
        const [first] = mark.entries;
        // Two that were marked in the same minute are told apart by who did.
        const who = first && !first.own ? writerWords(first) : "";
        const rod = wordsOf(mark, "rod");
        return { value: refer(mark), name: t.hookup(rod && rodWords(rod), clock(first?.at ?? 0), who) };
      })}
      value={fish.note}
      onChoose={(note) => {
        const mark = all.find((one) => refer(one) === note);
        if (mark) isOf(fish.id, mark);
      }}
    />
  );
}

/** The helm's step comes second: what it is depends on the other lines. */
const withHelm = (what: string): Advice[] => [...t.advice.slice(0, 1), { what }, ...t.advice.slice(1)];

function mistake(fish: Fish): void {
  takeBack(fish);
  goInstead("fish");
}

function gotOff(fish: Fish): void {
  tell(fish.id, { fish: "lost" });
  change(fish.id, { fate: "lost", step: "over" });
  offerUndo(t.gone, () => {
    change(fish.id, { fate: "", step: "land" });
    tell(fish.id, { fish: null });
  });
  goInstead("fish");
}
