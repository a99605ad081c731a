/** In the slush: since when, and how long the thickest part takes to be cold. */

import { useAnswer } from "../../../base/desk/ask";
import { type CoolingAnswer, limits } from "../../../base/desk/types/chill.gen";
import { Choices } from "../../../base/parts/input/choices";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { saySomewhere } from "../../../base/parts/input/problem";
import { useSeconds } from "../../../base/parts/seconds";
import { now } from "../../../base/position/moment";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import { fromDesk, text } from "../../../base/text/text";
import { rounded } from "../../../base/units/show";
import { coolingOf, slush, stirs, warmthNow } from "../../../state/fish/cooling";
import { change, type Fish, remove } from "../../../state/fish/fishes";
import { iceQuery } from "../../../state/fish/ice";
import { tell } from "../../../state/fish/noting";
import { CurvePicture } from "../parts/curve";
import { Slush } from "../parts/drawings";
import { fishName } from "../parts/names";
import { roughly, secondsSince, sinceWords, spanWords } from "../parts/times";
import { FootButton, ofFish, StepPage, Ticks, toStep } from "./step";

const t = text.fish.slush;

/** Before the calculator has answered for the day: a slush with little salt, °C. */
const usualBath = -1;

export const SlushPage = ofFish(({ fish }) => {
  useSeconds();
  const day = useAnswer("ice", iceQuery());
  const bath = day.answer?.fished.temperature ?? usualBath;
  const asked = coolingOf(fish, bath);
  const { answer, problem } = useAnswer("chill", asked);
  const inNow = () => {
    change(fish.id, { iced: now(), out: null });
    tell(fish.id, { iced: Date.now() });
  };
  return (
    <StepPage
      fish={fish}
      step="slush"
      foot={
        <>
          <FootButton onTap={() => toStep(fish.id, "bleed")}>{text.parts.back}</FootButton>
          {!fish.iced && (
            <FootButton primary onTap={inNow}>
              {t.inNow}
            </FootButton>
          )}
          <FootButton primary={fish.iced !== null} onTap={() => toStep(fish.id, "over")}>
            {text.fish.done}
          </FootButton>
        </>
      }
    >
      <Slush words={t.drawing} />
      {fish.iced && (
        <p class="large-words" role="timer">
          {t.inFor(sinceWords(fish.iced))}
        </p>
      )}
      {problem && <p role="alert">{saySomewhere(problem)}</p>}
      {answer && <Cooled fish={fish} answer={answer} />}
      <Ticks fish={fish} step="slush" advice={t.advice} />
      {answer && <Limits of={answer} />}
      <section class="form">
        <LimitedStepper
          label={t.bath}
          note={slush.value.bath === null ? t.byPlan : undefined}
          quantity="temperature"
          si={asked.bath ?? bath}
          limits={limits.Cooling.bath}
          onChange={(to) => slush.set({ ...slush.value, bath: to })}
        />
        <LimitedStepper
          label={t.warmth}
          note={slush.value.warmth === null ? t.asSea : undefined}
          quantity="temperature"
          si={warmthNow()}
          limits={limits.Cooling.temperature}
          onChange={(warmth) => slush.set({ ...slush.value, warmth })}
        />
        <Choices
          label={t.stir}
          choices={stirs.map((value) => ({ value, name: t.stirs[value] }))}
          value={slush.value.stir}
          onChoose={(stir) => slush.set({ ...slush.value, stir })}
        />
      </section>
      <p class="soft">{t.estimate}</p>
      <p class="soft">{text.fish.locked}</p>
      <div class="button-row">
        <a class="button" href={href("fish", "ice")}>
          {text.fish.ice.title}
        </a>
        {fish.iced && (
          <button type="button" class="button" onClick={once(() => change(fish.id, { iced: null }))}>
            {t.reset}
          </button>
        )}
        <button type="button" class="button" onClick={once(() => off(fish))}>
          {t.off}
        </button>
      </div>
    </StepPage>
  );
});

function off(fish: Fish): void {
  offerUndo(text.fish.bag.forgotten(fishName(fish)), remove(fish.id));
  goInstead("fish");
}

/** When it is cold, from the start and from now; and what its keeping has lost by now. */
function Cooled({ fish, answer }: { fish: Fish; answer: CoolingAnswer }) {
  useSeconds();
  const { time: cold, temperature } = answer.chilled;
  const gone = fish.iced ? secondsSince(fish.iced) : 0;
  if (!cold) return <p>{t.never(rounded("temperature", temperature))}</p>;
  const words = t.cold(
    rounded("temperature", temperature),
    roughly(cold.mid),
    roughly(cold.low),
    roughly(cold.high),
  );
  return (
    <section class="form">
      <p>
        <b>{words}</b> {fish.iced && (gone < cold.high ? t.coldIn(roughly(cold.high - gone)) : t.coldNow)}
      </p>
      <CurvePicture
        label={t.curve(words)}
        points={answer.curve.map((at) => ({ x: at.time, y: at.temperature }))}
        line={{ y: temperature, name: rounded("temperature", temperature) }}
        {...(fish.iced && { mark: { x: gone, name: t.now } })}
      />
    </section>
  );
}

function Limits({ of }: { of: CoolingAnswer }) {
  return (
    <section>
      {of.limits.map(({ deed, within, verdict, source }) => (
        <p key={deed}>
          <b>{t.limits[deed](spanWords(within), verdict)}</b>{" "}
          <span class="soft">{text.fish.source(fromDesk(source))}</span>
        </p>
      ))}
      <p class="soft">{t.stricter}</p>
    </section>
  );
}
