/** Taps whose doing waits for what is still on its way: kept at once, for a page that goes away first takes them with it. */
import { dropAtOnce, keepAtOnce, leftAtOnce, namesLeft } from "./at-once";

/** Whoever taps again within this time while the first tap waits means the same, ms: a judgement. */
const meant = 600_000;

export interface Tap<What extends string = string> {
  what: What;
  /** By the phone's clock, ms. */
  at: number;
  /** Does it, unless another page has: false. What it notes is to be kept at once, for the tap is dropped then. */
  take(act: () => void): boolean;
}

function named<What extends string>(name: string, what: What, at: number, kept = true): Tap<What> {
  const take = (act: () => void) => {
    if (kept && !leftAtOnce(name)) return false;
    act();
    dropAtOnce(name);
    return true;
  };
  return { what, at, take };
}

export function tapped<What extends string>(what: What): Tap<What> {
  const at = Date.now();
  const waits = undone().find((tap) => tap.what === what && Math.abs(at - tap.at) < meant);
  if (waits) return waits as Tap<What>;
  const name = `tapped-${at}-${what}`;
  keepAtOnce(name, { what, at });
  return named(name, what, at, leftAtOnce(name) !== undefined);
}

/** What waits to be done, tapped on whatever page, the earliest first. */
export const undone = (): Tap[] =>
  namesLeft(/^tapped-/).flatMap((name) => {
    const { what, at } = (leftAtOnce(name) ?? {}) as Partial<Tap>;
    return typeof what === "string" && typeof at === "number" ? [named(name, what, at)] : [];
  });
