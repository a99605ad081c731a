/** Where the build puts the words of each language but English; the service worker knows them by that. */

const folder = "assets/words/";

/** For the build: the name of the file with the words of a language. */
export const wordsFile = (language: string): string => `${folder}${language}/[hash].js`;

/**
 * For the build: what the words of a language need of the app. It has a file of its own: what is shown first waits for the
 * words, and they would wait for it for ever.
 */
export const neededByWords = /\/base\/(phone\/region|store\/named)\.ts$/;

/** The language whose words a file has; undefined: it is for all. */
export const languageOf = (url: string): string | undefined =>
  url.startsWith(folder) ? url.slice(folder.length).split("/")[0] : undefined;
