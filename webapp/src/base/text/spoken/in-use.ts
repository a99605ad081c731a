/**
 * The language in use. Everything waits here until its words are there; English comes with the pages, another
 * language only to those who use it, and into the cache for use without signal with everything else.
 */
import { bare } from "./bare";
import type { en } from "./en";
import { languageOfPhone } from "./language";

type Text = typeof en;

const others: { [language: string]: () => Promise<Text> } = {
  es: () => import("./es").then(({ es }) => es),
  ...(import.meta.env.MODE === "pseudo" && { "en-XA": () => import("./en-XA").then(({ pseudo }) => pseudo) }),
};

/** Words that do not come are no reason to show none. */
const other = await others[languageOfPhone()]?.().catch(() => undefined);

/** The words of a room in the language in use. */
export const inUse = <T extends Partial<Text>>(english: T): T =>
  bare(
    other
      ? (Object.fromEntries(Object.keys(english).map((name) => [name, other[name as keyof Text]])) as T)
      : english,
  );
