/**
 * The language in use. Everything waits here until its words are there; English comes with the app, another
 * language only to those who use it, and into the cache for use without signal with everything else.
 */
import { bare } from "./bare";
import { en } from "./en";
import { languageOfPhone } from "./language";

export type Text = typeof en;

const others: { [language: string]: () => Promise<Text> } = {
  es: () => import("./es").then(({ es }) => es),
  ...(import.meta.env.MODE === "pseudo" && { "en-XA": () => import("./en-XA").then(({ pseudo }) => pseudo) }),
};

/** Words that do not come are no reason to show none. */
export const text: Text = bare((await others[languageOfPhone()]?.().catch(() => undefined)) ?? en);

/** What came with the catalogue or the rules, in the language in use where it is known. */
export const fromDesk = (english: string): string => text.fromDesk[english] ?? english;
