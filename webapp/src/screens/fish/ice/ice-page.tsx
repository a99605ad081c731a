/** How much ice to load for the day, what becomes of it, and a picture of the box. */

import { useAnswer } from "../../../base/desk/ask";
import { type IceAnswer, limits } from "../../../base/desk/types/chill.gen";
import { FirstSet } from "../../../base/parts/first-set";
import { On, Warning } from "../../../base/parts/icons";
import { Choices } from "../../../base/parts/input/choices";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { Pick } from "../../../base/parts/input/pick";
import { saySomewhere } from "../../../base/parts/input/problem";
import { Live } from "../../../base/parts/live/live";
import { Page } from "../../../base/parts/page";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { units } from "../../../base/units/settings";
import { about, amount, bandNumbers, bare, numeral, rounded, unitName } from "../../../base/units/show";
import { inSi, scaleOf } from "../../../base/units/units";
import {
  firstDay,
  type IceDay,
  ice,
  iceQuery,
  kinds,
  lids,
  mixes,
  mostFish,
  suns,
} from "../../../state/fish/ice";
import { warmthNow } from "../../../state/instruments/taken";
import { water } from "../../../state/spread/water";
import { CurvePicture } from "../parts/curve";
import { roughly, spanWords } from "../parts/times";
import { boxName } from "./box-page";
import { BoxPicture } from "./ice-picture";

const t = text.fish.ice;

const change = (patch: Partial<IceDay>) => ice.set({ ...ice.value, ...patch });

export function IcePage() {
  const day = ice.value;
  const { answer, problem } = useAnswer("ice", iceQuery());
  const sea = water.value;
  return (
    <Page title={t.title} back={href("fish")}>
      {problem && <p role="alert">{saySomewhere(problem)}</p>}
      {answer && <Answer of={answer} day={day} />}
      <section class="form">
        <Pick
          label={t.box}
          options={day.boxes.map((box) => ({ id: box.id, name: boxName(box) }))}
          value={day.box}
          onPick={(box) => change({ box })}
        />
        <a class="button" href={href("fish", "box", day.box)}>
          {t.edit} <On />
        </a>
        <LimitedStepper
          label={t.count}
          quantity="number"
          si={day.count}
          limits={{ min: 0, max: mostFish }}
          onChange={(count) => change({ count: Math.round(count) })}
        />
        <LimitedStepper
          label={t.mass}
          quantity="mass"
          si={day.mass}
          limits={limits.Batch.mass}
          onChange={(mass) => change({ mass })}
        />
        <LimitedStepper
          label={t.first}
          quantity="hours"
          si={day.first}
          limits={{ min: 0, max: day.last }}
          onChange={(first) => change({ first })}
        />
        <LimitedStepper
          label={t.last}
          quantity="hours"
          si={day.last}
          limits={{ min: day.first, max: day.hold }}
          onChange={(last) => change({ last })}
        />
        <LimitedStepper
          label={t.hold}
          quantity="hours"
          si={day.hold}
          limits={{ min: Math.max(day.last, limits.IceQuery.hold.min), max: limits.IceQuery.hold.max }}
          onChange={(hold) => change({ hold })}
        />
        <LimitedStepper
          label={t.air}
          quantity="temperature"
          si={day.air}
          limits={limits.IceQuery.air}
          onChange={(air) => change({ air })}
        />
        <Choices
          label={t.sun}
          choices={named(suns, t.suns)}
          value={day.sun}
          onChoose={(sun) => change({ sun })}
        />
        <Choices
          label={t.lid}
          choices={named(lids, t.lids)}
          value={day.lid}
          onChoose={(lid) => change({ lid })}
        />
        <Choices
          label={t.mix}
          choices={named(mixes, t.mixes)}
          value={day.mix}
          onChoose={(mix) => change({ mix })}
        />
        <Choices
          label={t.kind}
          choices={kinds.map((value) => ({ value, name: t.kinds[value] }))}
          value={day.kind}
          onChoose={(kind) => change({ kind })}
        />
        <LimitedStepper
          label={t.aboard}
          quantity="mass"
          si={day.aboard}
          limits={limits.IceQuery.aboard}
          zero={t.asNeeded}
          onChange={(aboard) => change({ aboard })}
        />
      </section>
      <ul class="links">
        <li>
          <a class="button" href={href("locker", "water")}>
            <span>
              {text.lines.water.title} <Live age={() => warmthNow()?.age} />
              <small class="soft">{t.sea(rounded("temperature", sea.temperature), bare(sea.salinity))}</small>
            </span>
            <On />
          </a>
        </li>
      </ul>
      <p class="soft">{t.judged(roughlyAir())}</p>
      <FirstSet kept={ice} first={firstDay} is={JSON.stringify(day) === JSON.stringify(firstDay)} />
    </Page>
  );
}

const named = <K extends string>(all: { [key in K]: number }, names: { [key in K]: string }) =>
  (Object.keys(all) as K[]).map((value) => ({ value, name: names[value] }));

/** How far the air is doubted, in whole degrees: a difference, so the scale's own nought has no part in it. */
function roughlyAir(): string {
  const { unit } = scaleOf("temperature", units());
  return `${numeral(2 / inSi[unit])} ${unitName("temperature")}`;
}

/** So small a part of a fish’s water in ice is within what its freezing point is doubted by: a judgement. */
const little = 0.05;

const minute = 60;
const tenDays = limits.IceQuery.hold.max;

function Answer({ of, day }: { of: IceAnswer; day: IceDay }) {
  const full = of.load.mid < of.need.mid;
  // A full box holds what it holds.
  const band = full ? { low: of.load.mid - 1, mid: of.load.mid, high: of.load.mid + 1 } : of.load;
  const { mid, unit } = bandNumbers("mass", band);
  const step = (kg: number) => about("mass", kg, of.load.mid < 5 ? 0.5 : 1);
  const { fished, lasts, frozen, add, enough, fill } = of;
  // The fish alone fill it so far that there is no room for the ice that shall be left at the end.
  const crammed = fill.taken > fill.box || (full && !enough && add.length === 0);
  const slush = t.slush(about("temperature", fished.temperature, 0.1), bare(fished.salinity, 0));
  const end = lasts.mid >= tenDays ? t.lastsLong : t.lasts(roughly(lasts.low), roughly(lasts.high));
  return (
    <>
      {crammed && (
        <p class="notice">
          <span>
            <Warning /> {t.full}
          </span>
        </p>
      )}
      <section class="ice-load">
        <p class="readout huge">
          {t.load} {mid} <small>{unit}</small>
        </p>
        <p>
          {!full && `${t.band(step(of.load.low), step(of.load.high))}, `}
          {of.water > 0 ? t.water(step(of.water)) : of.load.mid > 0 && t.noWater}
        </p>
        {full && <p>{t.need(step(of.need.low), step(of.need.high))}</p>}
        {day.aboard > 0 && (
          <p>
            <b>
              {t.aboard}: {amount("mass", day.aboard)}.
            </b>{" "}
            {add.length === 0 && enough && t.enough}
          </p>
        )}
        {add.map(({ at, ice: kg }) => (
          <p key={at}>{at < minute ? t.addFirst(step(kg)) : t.add(step(kg), spanWords(at))}</p>
        ))}
        {!enough && !crammed && <p>{t.tooLittle}</p>}
      </section>
      {frozen > little && (
        <p class="notice">
          <span>
            <Warning /> {t.frozen(about("share", frozen, 1))}
          </span>
        </p>
      )}
      <BoxPicture fill={fill} count={day.count} />
      <p>
        {add.length > 0 && `${t.unadded}: `}
        {slush}. <b>{end}.</b>
      </p>
      <CurvePicture
        label={t.curve(end)}
        points={of.curve.map(({ time, ice: kg }) => ({ x: time, y: kg }))}
        from={0}
        mark={{ x: day.hold, name: t.hold }}
      />
    </>
  );
}
