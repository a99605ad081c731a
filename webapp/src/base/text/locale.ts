/** How numbers and dates are written: in the language in use, as in the region of this phone. */
import { text } from "./text";

/**
 * “es-MX” of a phone that has it among its languages, else the language with the region of the phone's first: numbers
 * have a point in Mexico and the United States, a comma in Spain.
 */
export function localeFor(language: string, wanted: readonly string[]): string {
  const own = wanted.find((one) => one.toLowerCase().split("-")[0] === language);
  const region = wanted
    .map((one) => one.split("-").at(-1) ?? "")
    .find((part) => /^([A-Z]{2}|\d{3})$/.test(part));
  return own?.includes("-") || !region ? (own ?? language) : `${language}-${region}`;
}

export const locale = localeFor(text.language, typeof document === "undefined" ? [] : navigator.languages);

/** Between whole and parts, written and typed. */
export const decimalMark =
  new Intl.NumberFormat(locale).formatToParts(1.5).find(({ type }) => type === "decimal")?.value ?? ".";
