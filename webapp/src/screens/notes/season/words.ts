/** What was read of a season, in words. */
import type { Told } from "../../../base/desk/types/produced.gen";
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";
import type { Read } from "../../../state/produced/read";
import { factorNames } from "../../../state/produced/season";

const t = text.produced;

export const hours = (s: number): string => numeral(s / 3600, s < 36_000 ? 0.1 : 1);

/** 1/s as events in ten hours. */
export const perTen = (rate: number): string => {
  const many = rate * 36_000;
  return numeral(many, many < 10 ? 0.1 : 1);
};

export const percent = (share: number): string => `${numeral(Math.round(100 * share))}\u00a0%`;

export const times = (ratio: number): string => numeral(ratio, ratio < 10 ? 0.1 : 1);

export const factorName = (place: number): string => t.factors[factorNames[place] ?? ""] ?? "";

export function levelName(
  read: Read,
  told: Told,
  { level, other }: { level: number; other: number },
): string {
  const one = read.names[told.factor]?.[level] ?? "";
  return other < 0 ? one : t.both(one, read.names[told.other]?.[other] ?? "");
}

/** A level with its factor's name: “Spoon: white 3 oz”. */
export const named = (read: Read, factor: number, level: number): string =>
  `${factorName(factor)}: ${read.names[factor]?.[level] ?? ""}`;
