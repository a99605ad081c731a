/** The spread in a turn: what every lure does, from above and from the side, and how tight a turn may be. */

import { useAnswer } from "../../../base/desk/ask";
import type { Side, TurnAnswer, TurnRod } from "../../../base/desk/types/towline.gen";
import { Down, Grounded, Up, Warning } from "../../../base/parts/icons";
import { Choices } from "../../../base/parts/input/choices";
import { sayOther } from "../../../base/parts/input/problem";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { about, asSureAs, inTen, lineAmount, rounded, roundsToNothing } from "../../../base/units/show";
import { lasting } from "../../../base/units/when";
import { gear, pick } from "../../../state/gear/gear";
import { placeName } from "../../../state/gear/names";
import { selectedId } from "../../../state/spread/solved";
import { type Spread, spread } from "../../../state/spread/spread";
import { tightestFor, turnFor } from "../../../state/turn/request";
import { allowed, quarter, radiusOf, side, stops } from "../../../state/turn/turn";
import type { Drawn } from "./frame";
import { Above, Beside } from "./pictures";
import { Play } from "./play";
import { Slider } from "./slider";

const t = text.turn;

export function TurnPage() {
  const now = spread.value;
  const radius = radiusOf(quarter.value, now.speed);
  const words =
    radius > 0 ? t.tight(lasting(quarter.value), lineAmount(radius), lasting(4 * quarter.value)) : t.straight;
  return (
    <Page title={t.title} back={href("lines")}>
      <p class="soft">{t.what(about("speed", now.speed, 0.1))}</p>
      <Choices
        label={t.side}
        choices={(["port", "starboard"] as const).map((value) => ({ value, name: t.sides[value] }))}
        value={side.value}
        onChoose={(value) => {
          side.value = value;
        }}
      />
      <Slider
        label={t.tightness}
        value={stops.value.indexOf(quarter.value)}
        most={stops.value.length - 1}
        words={words}
        onSlide={(value) => {
          quarter.value = stops.value[value] ?? quarter.value;
        }}
      />
      <p class="large-words" role="status">
        {words}
      </p>
      <Turning now={now} toward={side.value} quarter={quarter.value} />
      <HowTight now={now} toward={side.value} />
      <Play now={now} toward={side.value} quarter={quarter.value} />
      <p class="soft">{t.physics}</p>
    </Page>
  );
}

function Turning({ now, toward, quarter }: { now: Spread; toward: Side; quarter: number }) {
  const { answer, problem } = useAnswer("turn", turnFor(now, toward, quarter));
  if (problem) return <p role="alert">{sayOther(problem)}</p>;
  if (!answer || answer.rods.length !== now.rods.length) return <p>{text.lines.working}</p>;
  const lines = drawn(now, answer);
  const radius = radiusOf(quarter, now.speed) * (toward === "port" ? -1 : 1);
  return (
    <>
      <Above lines={lines} radius={radius} words={t.aboveWords(t.sides[toward])} />
      <Beside lines={lines} bottom={now.bottom} words={t.besideWords} />
      <ul class="turn-rods">
        {answer.rods.map((rod, i) => (
          <RodInTurn
            key={now.rods[i]?.id}
            rod={rod}
            number={i + 1}
            place={nameOf(now, i)}
            bottom={now.bottom}
          />
        ))}
      </ul>
      <Closest now={now} answer={answer} />
    </>
  );
}

const nameOf = (now: Spread, i: number): string => {
  const rod = now.rods[i];
  return rod ? placeName(pick(gear.value.places, rod.place)) : "";
};

const drawn = (now: Spread, answer: TurnAnswer): Drawn[] =>
  answer.rods.flatMap(({ curve, trouble, hold }, i) =>
    trouble || hold === "collapsed"
      ? []
      : [
          {
            number: i + 1,
            astern: curve.astern,
            abeam: curve.abeam,
            depth: curve.depth,
            ...(curve.low.length > 0 && { band: { low: curve.low, high: curve.high } }),
            chosen: now.rods[i]?.id === selectedId.value,
          },
        ],
  );

interface OneRod {
  rod: TurnRod;
  number: number;
  place: string;
  bottom: number;
}

/** What one rod's lure does in the turn, no deeper than the bottom is, beside the straight course. */
function RodInTurn({ rod, number, place, bottom }: OneRod) {
  const name = text.notes.oneRod(number, place);
  if (rod.trouble) return <li>{`${name}: ${text.lines.noAnswer}`}</li>;
  if (rod.hold === "collapsed") {
    return (
      <li>
        <b>{name}</b>
        <span class="verdict alarm">
          <Warning /> {t.collapsed}
        </span>
      </li>
    );
  }
  const change = rod.depth.mid - rod.straight;
  const touches = rod.touch !== undefined || rod.offBottom.mid <= 0;
  const isNone = roundsToNothing("depth", change);
  const ends = [rod.depth.low, rod.depth.high];
  const [low = "", high = ""] = ends.map((depth) => about("depth", Math.min(depth, bottom), 1));
  return (
    <li>
      <b>{name}</b>
      {!touches && <span class="readout">{asSureAs("depth", rod.depth.mid, rod.depth)}</span>}
      <span class={touches ? "verdict alarm" : "verdict"}>
        {touches ? <Grounded /> : isNone ? null : change > 0 ? <Down /> : <Up />}{" "}
        {touches
          ? text.lines.odds.touch(inTen(rod.touching))
          : isNone
            ? t.asStraight
            : change > 0
              ? t.sinks(rounded("depth", change))
              : t.rises(rounded("depth", -change))}
      </span>
      {low !== high && <span class="soft">{t.between(low, high)}</span>}
      {rod.risky && !touches && (
        <span class="verdict alarm">
          <Warning /> {text.lines.odds.touch(inTen(rod.touching))}
        </span>
      )}
    </li>
  );
}

function Closest({ now, answer: { closest } }: { now: Spread; answer: TurnAnswer }) {
  if (!closest) return null;
  const pair = [closest.rod, closest.other].map((i) => text.notes.oneRod(i + 1, nameOf(now, i)));
  return (
    <p>{t.closest(pair.join(", "), about("depth", closest.distance, 1), about("depth", closest.depth, 1))}</p>
  );
}

/** The tightest turn that keeps lures off the bottom and lines apart. */
function HowTight({ now, toward }: { now: Spread; toward: Side }) {
  const { answer } = useAnswer("tightest", tightestFor(now, toward));
  if (!answer) return null;
  const place = text.notes.oneRod(answer.rod + 1, nameOf(now, answer.rod));
  const why = t.bounds[answer.bound](place, text.lines.parts[answer.part] ?? answer.part);
  const tightest = allowed(answer.quarter);
  return (
    <section class="notice">
      <h2>{t.tightest}</h2>
      <p>
        {answer.bound === "none"
          ? t.anyTurn
          : answer.radius === 0
            ? t.neverTight(why)
            : t.notTighter(lasting(tightest), lineAmount(answer.radius), why)}
      </p>
      {answer.bound !== "none" && answer.radius > 0 && tightest !== quarter.value && (
        <div class="notice-actions">
          <button
            type="button"
            class="button"
            onClick={once(() => {
              quarter.value = tightest;
            })}
          >
            {t.lookAtIt}
          </button>
        </div>
      )}
    </section>
  );
}
