/** What the desk is asked about turns, of the spread as it is set on Lines. */
import type * as desk from "../../base/desk/types/towline.gen";
import { gear } from "../gear/gear";
import { doubtNow } from "../spread/doubt";
import { bottomNow, rodFor, seaFor } from "../spread/request";
import type { Rod, Spread } from "../spread/spread";
import { properties } from "../spread/water";
import { radiusOf } from "./turn";

const sea = (spread: Spread) => seaFor(spread, properties.value);
const rods = (spread: Spread) => spread.rods.map((rod) => rodFor(gear.value, rod));

/** What is in doubt, and how near the bottom one dares to go. */
const doubtsFor = (spread: Spread) => ({ doubt: doubtNow.value, ...bottomNow(spread) });

export const turnFor = (spread: Spread, toward: desk.Side, quarter: number): desk.Turn => ({
  sea: sea(spread),
  toward,
  radius: radiusOf(quarter, spread.speed),
  ...doubtsFor(spread),
  rods: rods(spread),
});

export const tightestFor = (spread: Spread, toward: desk.Side): desk.Tightest => ({
  sea: sea(spread),
  toward,
  ...doubtsFor(spread),
  rods: rods(spread),
});

/** A course of events to follow in time. */
export type Manoeuvre = "quarter" | "stop";

/** How long the boat takes to lose her way, s: common practice, no source. */
const stopsIn = 6;
/** Samples for a manoeuvre, and points of a line in each. */
const samples = 100;
const points = 8;

export function settleFor(
  spread: Spread,
  rod: Rod,
  what: Manoeuvre,
  toward: desk.Side,
  quarter: number,
): desk.Settle {
  const lasts = what === "stop" ? 40 : Math.min(quarter + 60, 400);
  return {
    sea: sea(spread),
    rod: rodFor(gear.value, rod),
    ...(what === "stop"
      ? { speed: { to: 0, in: stopsIn } }
      : { course: { by: ((toward === "port" ? -1 : 1) * Math.PI) / 2, rate: Math.PI / 2 / quarter } }),
    ...doubtsFor(spread),
    lasts,
    every: lasts / samples,
    curvePoints: points,
  };
}
