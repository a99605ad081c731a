/** Where in the app one is: the part of the address after “#/”. */
import { signal } from "@preact/signals";
import { once, screenChanged } from "./guard";

const read = () => location.hash.replace(/^#\/?/, "").split("/").filter(Boolean).map(decode);

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** The parts of the address: ["lines", "card", "3f…"]; none at the front door. */
export const route = signal<string[]>(read());

/** Whether there is a page of the app to go back to. */
let moved = false;

/** The addresses that led here. */
const way = [location.hash];
let left: string | undefined;
let instead = false;

/** The address one has just come back from; undefined where one has gone on. */
export const cameBackFrom = (): string | undefined => left;

addEventListener("hashchange", () => {
  moved = true;
  if (instead) {
    // Done and gone on, not come back: what is there now begins at its top.
    way[way.length - 1] = location.hash;
    left = undefined;
    instead = false;
  } else {
    left = way.at(-2) === location.hash ? way.pop() : undefined;
    if (left === undefined) way.push(location.hash);
  }
  screenChanged();
  route.value = read();
});

export const go = (...parts: string[]): void => {
  location.hash = `#/${parts.map(encodeURIComponent).join("/")}`;
};

export const href = (...parts: string[]): string => `#/${parts.map(encodeURIComponent).join("/")}`;

/** Goes there without leaving the page one is on in the history: it is not there any more. */
export function goInstead(...parts: string[]): void {
  instead = href(...parts) !== location.hash;
  location.replace(href(...parts));
}

/** Goes back to where one came from, if that was in the app, else there. */
export function leave(...otherwise: string[]): void {
  if (moved) history.back();
  else goInstead(...otherwise);
}

/**
 * For links that say “back”: to where one came from, if that was in the app, else where the link leads. The next page has
 * its own way back in the same place: an echo of the tap would leave that too.
 */
export const goBack = once((event) => {
  if (!moved) return;
  event.preventDefault();
  history.back();
});
