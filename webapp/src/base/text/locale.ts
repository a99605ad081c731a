/** How numbers and dates are written: in the language in use, as in the region of this phone. */
import { text } from "./text";

/** What the browser calls a language, where it is one: some name their own in ways of the machine, “en-US@posix”. */
function asLocale(name: string): Intl.Locale | undefined {
  try {
    return new Intl.Locale(name);
  } catch {
    return undefined;
  }
}

/**
 * “es-MX” of a phone that has it among its languages, else the language with the region of the phone's first: numbers
 * have a point in Mexico and the United States, a comma in Spain.
 */
export function localeFor(language: string, wanted: readonly string[]): string {
  const spoken = new Intl.Locale(language);
  if (spoken.region) return language;
  const known = wanted.map(asLocale).filter((one) => one !== undefined);
  const own = known.find((one) => one.language === spoken.language);
  const region = known.find((one) => one.region)?.region;
  return own?.region || !region ? (own ?? spoken).toString() : `${language}-${region}`;
}

export const locale = localeFor(text.language, typeof document === "undefined" ? [] : navigator.languages);

/** Between whole and parts, written and typed. */
export const decimalMark =
  new Intl.NumberFormat(locale).formatToParts(1.5).find(({ type }) => type === "decimal")?.value ?? ".";
