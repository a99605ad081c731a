/** What the predicted water says in words. */
import type { Phase } from "../../base/desk/types/day.gen";
import type { Prediction, Station } from "../../base/desk/types/tide.gen";
import { text } from "../../base/text/text";
import { about, numeral } from "../../base/units/show";
import { clock, course } from "../../base/units/when";

const t = text.tide;

export const miles = (metres: number): string => t.miles(numeral(metres / 1852, 0.1));

export const height = (si: number): string => about("depth", si, 0.1);
export const speed = (si: number): string => about("speed", Math.abs(si), 0.1);

export const stationWords = ({ name, state, distance, bearing }: Station): string =>
  t.station(state ? `${name}, ${state}` : name, miles(distance), course(bearing));

/** “Ebb 1.1 kn toward 210° until 14:05, then slack”. */
export function flowWords({ value, set, directed, next, until }: Phase, at: number): string {
  const turn = t.turns[value < 0 ? "ebb" : "flood"];
  const towards = directed ? course(set) : "–";
  return t.until(turn, speed(value), towards, clock(at + until * 1000), t.turns[next]);
}

/** How far off, and how near the station. */
export function spreadWords({ spread, station }: Prediction, value: string): string {
  return `${t.spread(value, numeral(spread.time / 60))} ${station.distance > 1852 ? t.differs(miles(station.distance)) : ""}`;
}
