/**
 * A language for the tests, after the pseudo-locale en-XA of Unicode's CLDR: English with accents, longer, and in
 * brackets. Only a build of the mode “pseudo” has it. What is on screen without an accent is no text of the app's.
 */
import { en } from "./en";

type Text = typeof en;

const plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
const accented = "åƀçðéƒĝĥîĵķļɱñöþǫŕšţûṽŵẋýžÅƁÇÐÉƑĜĤÎĴĶĻṀÑÖÞǪŔŠŢÛṼŴẊÝŽ";

/** Longer by a third, as German or Finnish often is (from memory). */
function disguise(text: string): string {
  if (text === "") return text;
  const changed = text.replace(/[a-z]/gi, (letter) => accented[plain.indexOf(letter)] ?? letter);
  return `[${changed}${"·".repeat(Math.ceil(text.length / 3))}]`;
}

function all(of: unknown): unknown {
  if (typeof of === "string") return disguise(of);
  if (typeof of === "function") return (...given: unknown[]) => all(of(...given));
  if (Array.isArray(of)) return of.map(all);
  if (typeof of !== "object" || of === null) return of;
  return Object.fromEntries(Object.entries(of).map(([key, value]) => [key, all(value)]));
}

/** Whatever English sentence it is asked for. */
const any = new Proxy({} as { [english: string]: string }, {
  get: (_, english) => (typeof english === "string" ? disguise(english) : undefined),
});

export const pseudo: Text = {
  ...(all(en) as Text),
  language: "en-XA",
  fromDesk: any,
};
