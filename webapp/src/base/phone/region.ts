/** How a language is written in the region of this phone. */

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

/** All that the person has set the phone to; without a page nobody has set anything. */
export const languagesOfPhone = (): readonly string[] =>
  typeof document === "undefined" ? [] : navigator.languages;

/** How numbers that stand in the texts of a language are written: “3,5” in Spain, “3.5” in Mexico. */
export function writtenIn(language: string): (number: number) => string {
  const format = new Intl.NumberFormat(localeFor(language, languagesOfPhone()));
  return (number) => format.format(number);
}
