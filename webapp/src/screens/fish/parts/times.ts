/** How long things have taken, in words; they go on with the phone locked. */
import { type Moment, since } from "../../../base/position/moment";
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";

/** s, in words that fit its length: “40 s”, “24 min”, “3 h 20 min”, “2.5 days”. */
export function spanWords(seconds: number): string {
  const t = text.fish.time;
  const whole = Math.max(0, Math.floor(seconds));
  if (whole < 120) return t.seconds(numeral(whole));
  const minutes = Math.floor(whole / 60);
  if (minutes < 60) return t.minutes(numeral(minutes));
  const hours = Math.floor(minutes / 60);
  if (hours < 48) return t.hours(numeral(hours), numeral(minutes % 60));
  return t.days(numeral(hours / 24, 0.1));
}

/** The same rounded as an estimate deserves: to 5 min below 2 h, to 10 min below 10 h, else to whole hours. */
export function roughly(seconds: number): string {
  const step = seconds < 7200 ? 300 : seconds < 36_000 ? 600 : 3600;
  return spanWords(Math.max(step, Math.round(seconds / step) * step));
}

/** s since a moment, and never less than none. */
export const secondsSince = (then: Moment): number => since(then) / 1000;

/** Since a moment, in words. */
export const sinceWords = (then: Moment): string => spanWords(secondsSince(then));
