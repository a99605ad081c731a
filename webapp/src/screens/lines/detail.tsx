/** All there is to say about one rod, and the questions one can ask about it. */
import type { RodAnswer } from "../../base/desk/types/towline.gen";
import { Facts } from "../../base/parts/facts";
import { Gone } from "../../base/parts/gone";
import { On } from "../../base/parts/icons";
import { Page } from "../../base/parts/page";
import { pose } from "../../base/shell/pose";
import { href } from "../../base/shell/route";
import { fromDesk, text } from "../../base/text/text";
import { units } from "../../base/units/settings";
import { about, coarse, lineAmount } from "../../base/units/show";
import { gear, pick } from "../../state/gear/gear";
import { placeName, rigInColour } from "../../state/gear/names";
import { takeIn } from "../../state/spread/request";
import { answerFor, thumb } from "../../state/spread/solved";
import { type Rod, spread } from "../../state/spread/spread";
import { HowSure } from "./calibrate/how-sure";
import { readouts, rodSetting } from "./rods";
import { TouchButton } from "./touch-button";
import { oddsWords, VerdictMark } from "./verdict";
import { adviceWords, causeWords, depthWords, offBottomWords, riseWords } from "./words";

export function RodPage({ id }: { id: string }) {
  const rod = spread.value.rods.find((r) => r.id === id);
  if (!rod) return <Gone back={href("lines")} />;
  return (
    <Page title={placeName(pick(gear.value.places, rod.place))} back={href("lines")}>
      <RodDetail rod={rod} />
    </Page>
  );
}

export function RodDetail({ rod }: { rod: Rod }) {
  const answer = answerFor(readouts.value, rod);
  const rig = pick(gear.value.rigs, rod.rig);
  const depths = thumb.value?.depths ?? [];
  const rule = depths[spread.value.rods.findIndex((r) => r.id === rod.id)];
  const t = text.lines.detail;
  return (
    <section class="detail" aria-label={placeName(pick(gear.value.places, rod.place))}>
      <p class="soft">
        {rigInColour(rig, gear.value)}, {rodSetting(rod)}
      </p>
      {answer && (
        <p class="rod-state">
          {!takeIn.value[rod.id] && <VerdictMark answer={answer} />}{" "}
          <b>{riseWords(rod, answer) ?? adviceWords(answer, rig)}</b>
        </p>
      )}
      {answer && !answer.trouble && <RodFacts answer={answer} rule={rule} />}
      {answer && <HowSure rod={rod} answer={answer} />}
      <nav class="asks" aria-label={t.asks}>
        {pose.value !== "wide" && <TouchButton rod={rod} />}
        <a class="button" href={href("lines", "card", rod.id)}>
          {t.card} <On />
        </a>
        <a class="button" href={href("lines", "drail", rod.id)}>
          {t.drail} <On />
        </a>
        <a class="button" href={href("lines", "slow", rod.id)}>
          {t.slow} <On />
        </a>
        <a class="button" href={href("lines", "rig", rod.id)}>
          {t.rig} <On />
        </a>
      </nav>
    </section>
  );
}

function RodFacts({ answer, rule }: { answer: RodAnswer; rule: number | undefined }) {
  const t = text.lines.detail;
  const { tip, astern } = answer;
  const facts = [
    [t.depth, depthWords(answer)],
    [t.odds, oddsWords(answer)],
    [
      text.thumb.name,
      rule === undefined
        ? ""
        : text.thumb.labelled(about("depth", rule, 1), fromDesk(thumb.value?.label ?? "")),
    ],
    [t.offBottom, offBottomWords(answer)],
    [t.tension, t.pull(about("pull", tip.tension, 1))],
    [t.angle, t.below(about("angle", tip.angle, 1))],
    [t.inAir, lineAmount(tip.airLength)],
    [t.astern, about("line", astern, coarse[units().line])],
  ] as const;
  return (
    <>
      <Facts of={facts} />
      <div class="asks">
        <a class="button" href={href("locker", "doubt")}>
          {t.doubt(causeWords(answer))} <On />
        </a>
      </div>
    </>
  );
}
