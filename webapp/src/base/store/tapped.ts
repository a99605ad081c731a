/** Taps whose doing waits for what is still on its way: kept at once, for a page that goes away first takes them with it. */
import { dropAtOnce, keepAtOnce, leftAtOnce, namesLeft } from "./at-once";

const form = /^tapped-/;

/** Of pages that went away before; those of this one are done by it. */
const before = namesLeft(form);

export interface Tap<What extends string = string> {
  what: What;
  /** By the phone's clock, ms. */
  at: number;
  done(): void;
}

const named = <What extends string>(name: string, what: What, at: number): Tap<What> => ({
  what,
  at,
  done: () => dropAtOnce(name),
});

export function tapped<What extends string>(what: What): Tap<What> {
  const at = Date.now();
  const name = `tapped-${at}-${what}`;
  keepAtOnce(name, { what, at });
  return named(name, what, at);
}

/** What pages left undone, the earliest first; each is given once. */
export const leftUndone = (): Tap[] =>
  before.splice(0).flatMap((name) => {
    const { what, at } = (leftAtOnce(name) ?? {}) as Partial<Tap>;
    return typeof what === "string" && typeof at === "number" ? [named(name, what, at)] : [];
  });
