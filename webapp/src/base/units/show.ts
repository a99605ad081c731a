/** Numbers as they are read: in the person's units, rounded as far as they can be trusted. */

import { locale } from "../text/locale";
import { text } from "../text/text";
import { units } from "./settings";
import { fromSi, honestStep, inSi, type Quantity, roundTo, scaleOf, toSi } from "./units";

/** Formats by least and most decimals; making one takes longer than all else that is done for a number. */
const formats = new Map<string, Intl.NumberFormat>();

function format(number: number, least: number, most: number): string {
  const key = `${least} ${most}`;
  let made = formats.get(key);
  if (!made) {
    made = new Intl.NumberFormat(locale, {
      minimumFractionDigits: least,
      maximumFractionDigits: most,
    });
    formats.set(key, made);
  }
  return made.format(number).replace("-", "−");
}

/** A number with as many decimals as the step it is rounded to. */
export function numeral(number: number, step = 1): string {
  const decimals = (String(step).split(".")[1] ?? "").length;
  const rounded = roundTo(number, step);
  return format(rounded === 0 ? 0 : rounded, decimals, decimals);
}

/** A bare number with no more decimals than it needs. */
export const bare = (number: number, most = 2): string => format(number, 0, most);

/**
 * What lengths are said in that nobody typed in this unit, where its decimals are finer than anybody says: 59 ft and not 59.1.
 */
const saidIn: { [quantity in Quantity]?: number } = { depth: 1, line: 1, size: 0.1 };

/** A number exactly as it was typed, without needless zeros; a length that came in another unit as a person would say it. */
export function exact(quantity: Quantity, si: number): string {
  const { unit, decimals, step } = scaleOf(quantity, units());
  const number = fromSi(si, unit);
  const said = unit !== "m" && saidIn[quantity];
  const typed = !said || Math.abs(number - roundTo(number, 10 ** -decimals)) < 1e-4;
  return format(typed ? number : roundTo(number, Math.min(step, said)), 0, decimals);
}

export const unitName = (quantity: Quantity): string => text.units[scaleOf(quantity, units()).unit];

/** Exactly, with its unit: “200 ft”. */
export const amount = (quantity: Quantity, si: number): string => join(exact(quantity, si), quantity);

/** A length that the law gives, in whatever unit it is read, to the hundredth: nothing shorter is called long enough. */
export const lawful = (si: number): string => join(bare(fromSi(si, scaleOf("ruler", units()).unit)), "ruler");

/** Rounded to a multiple of step, with its unit. */
export const about = (quantity: Quantity, si: number, step: number): string =>
  join(numeral(fromSi(si, scaleOf(quantity, units()).unit), step), quantity);

/** Rounded as far as one steps in it: what is reckoned is no surer. */
export const rounded = (quantity: Quantity, si: number): string =>
  about(quantity, si, scaleOf(quantity, units()).step);

/** Whether nothing is left of it, rounded like that. */
export function roundsToNothing(quantity: Quantity, si: number): boolean {
  const { unit, step } = scaleOf(quantity, units());
  return roundTo(fromSi(Math.abs(si), unit), step) === 0;
}

const join = (number: string, quantity: Quantity) => {
  const unit = unitName(quantity);
  if (unit === "") return number;
  return unit === text.units["°"] ? number + unit : `${number}\u00a0${unit}`;
};

/** Coarse steps in which lengths of line and distances are told. */
export const coarse = { ft: 5, fm: 1, m: 1 } as const;

/** A length of line to let out or take in: coarse, but never rounded to nothing. */
export const lineAmount = (si: number): string => about("line", si, lineStep(si));

/** The least of such lengths that is no shorter, m. */
export const lineUp = (si: number): number => up(si, toSi(lineStep(si), units().line));

/** The least speed that is no slower of those that are told, m/s: whoever dials what he reads is done. */
export const speedUp = (si: number): number => up(si, 0.1 * inSi.kn);

const up = (si: number, step: number): number => Math.ceil(si / step - 1e-9) * step;

function lineStep(si: number): number {
  const step = coarse[units().line];
  return Math.abs(fromSi(si, units().line)) < step ? step / 5 : step;
}

/**
 * The numbers of a band: its middle, half its width, both with the rounding the width allows; of a speed in tenths however
 * wide it is, as it is read on every page and dialled.
 */
export function bandNumbers(quantity: Quantity, band: { low: number; mid: number; high: number }) {
  const { unit } = scaleOf(quantity, units());
  const half = fromSi((band.high - band.low) / 2, unit);
  const step = quantity === "speed" ? Math.min(honestStep(half), 0.1) : honestStep(half);
  return {
    mid: numeral(fromSi(band.mid, unit), step),
    half: numeral(Math.ceil(half / step - 1e-9) * step, step),
    unit: unitName(quantity),
  };
}

/** A band in words: “44 ± 12 ft”. */
export function banded(quantity: Quantity, band: { low: number; mid: number; high: number }): string {
  const { mid, half, unit } = bandNumbers(quantity, band);
  return `${mid}\u202f±\u202f${half}\u00a0${unit}`;
}

/** A value with the rounding that its band allows: “34 ft”. */
export function asSureAs(quantity: Quantity, si: number, band: { low: number; high: number }): string {
  const half = fromSi((band.high - band.low) / 2, scaleOf(quantity, units()).unit);
  return about(quantity, si, honestStep(half));
}

/** How long, in words that fit its length: “12 s”, “24 min”, “3 h”. */
export function age(ms: number): string {
  const t = text.ages;
  const seconds = Math.floor(ms / 1000);
  if (seconds < 100) return t.seconds(numeral(seconds));
  const minutes = Math.round(seconds / 60);
  return minutes < 100 ? t.minutes(numeral(minutes)) : t.hours(numeral(Math.round(minutes / 60)));
}

/** A chance as it is said: “7 in 10”. Less than one in ten is never said to be one: a touch may cost the spoon. */
export function inTen(chance: number, { under, over }: { under: string; over: string } = text.odds): string {
  const whole = Math.round(chance * 10);
  if (chance < 0.1) return under;
  if (whole >= 10) return over;
  return text.odds.in(numeral(whole));
}
