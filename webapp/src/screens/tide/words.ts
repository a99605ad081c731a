/** What the predicted water says in words. */
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

/**
 * “Ebb 1.1 kn toward 210° until 14:05, then slack, then flood”, of the first of the curve. It runs until the next slack,
 * be it strongest before or after.
 */
export function flowWords({ curve, marks, flood, ebb }: Prediction): string {
  const [value = 0] = curve;
  const turn = t.turns[value < 0 ? "ebb" : "flood"];
  const way = value < 0 ? ebb : flood;
  const slack = marks.find((mark) => mark.turn.startsWith("slack"));
  if (!slack) return t.stream(turn, speed(value));
  const towards = way ? course(way.towards) : "–";
  return t.until(turn, speed(value), towards, clock(slack.time * 1000), t.turns[slack.turn]);
}

/** How far off, and how near the station. */
export function spreadWords({ spread, station }: Prediction, value: string): string {
  return `${t.spread(value, numeral(spread.time / 60))} ${station.distance > 1852 ? t.differs(miles(station.distance)) : ""}`;
}
