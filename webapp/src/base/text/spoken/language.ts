/**
 * The language of this phone: as chosen in the Locker, else the first of the phone's own that there is, else English.
 * It is needed before anything is shown, so it is not kept with the settings.
 */
export const languages: { [language: string]: string } = {
  en: "English",
  es: "Español",
  ...(import.meta.env.MODE === "pseudo" && { "en-XA": "Pseudo" }),
};

const known = (name: string | null | undefined): name is string => !!name && Object.hasOwn(languages, name);

function chosen(): string | null {
  try {
    return localStorage.getItem("language");
  } catch {
    return null;
  }
}

/** The first of these languages, such as “es-MX”, that there is. */
export function firstKnown(wanted: readonly string[]): string {
  return wanted.map((one) => one.toLowerCase().split("-")[0]).find(known) ?? "en";
}

export function languageOfPhone(): string {
  // Without a page nobody has chosen anything, and the machine's language is nobody's wish.
  if (typeof document === "undefined") return "en";
  const own = chosen();
  return known(own) ? own : firstKnown(navigator.languages);
}

/** From now on in this language: the app begins anew in it, where it was. */
export function choose(language: string): void {
  try {
    localStorage.setItem("language", language);
  } catch {
    // Not to be remembered, and so not to be had.
  }
  location.reload();
}
