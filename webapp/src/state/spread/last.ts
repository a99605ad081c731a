/** The last answer to the spread, kept so that after a start there are depths at once: as of then, until there are new ones. */
import { effect } from "@preact/signals";
import type { RodAnswer } from "../../base/desk/types/towline.gen";
import { Kept } from "../../base/store/kept";
import type { Gear } from "../gear/gear";
import { type Doubts, doubt } from "./doubt";
import { spreadFor } from "./request";
import type { Solved } from "./solved";
import { type Spread, wantedSpeeds } from "./spread";

interface Last {
  /** What was asked, but for what is only known once the app runs; and which calculations answered. */
  to: string;
  calc: string;
  /** When, by this phone's clock, ms. */
  at: number;
  rods: RodAnswer[];
  aim: number;
  /** The speeds that were wanted: what tells them comes later, and until then another advice would stand there. */
  speeds?: { low: number; high: number } | undefined;
}

/** Which calculations these are, by their module. */
const calc: string = import.meta.env.CALC ?? "";

/** Anything else than what this very app has written is of no use, and no loss. */
export const last = new Kept<Last | null>(
  "last answer",
  (raw) => {
    const read = raw as Last | null;
    return typeof read?.to === "string" && read.calc === calc && Array.isArray(read.rods) ? read : null;
  },
  null,
);

function questionOf(gear: Gear, spread: Spread, doubts: Doubts): string {
  const { wanted, ...rest } = spreadFor(gear, spread, undefined, doubts);
  return JSON.stringify({ ...rest, wanted: { low: wanted.low, high: wanted.high } });
}

/** What was answered last to this spread as it is; undefined: nothing. */
function lastOf(gear: Gear, spread: Spread): Solved | undefined {
  const { value } = last;
  if (!value || value.rods.length !== spread.rods.length) return undefined;
  if (value.to !== questionOf(gear, spread, doubt.value)) return undefined;
  return { spread, rods: value.rods, aim: value.aim, asOf: value.at };
}

/** Goes by the speeds that were wanted last, until it is known which are; and by what was answered then to this very spread. */
export function resume(gear: Gear, spread: Spread): Solved | undefined {
  wantedSpeeds.value ??= last.value?.speeds;
  return lastOf(gear, spread);
}

/** So long after the last change it is kept, ms: while a finger moves there are many. */
const rest = 3000;

/** Keeps what is answered, from now on. */
export function keepLast(solved: () => Solved | undefined, gear: () => Gear): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const keep = () => {
    clearTimeout(timer);
    timer = undefined;
    const now = solved();
    if (!now || now.asOf !== undefined) return;
    const { spread, rods, aim } = now;
    const speeds = wantedSpeeds.peek();
    last.fill({ to: questionOf(gear(), spread, doubt.value), calc, at: Date.now(), rods, aim, speeds });
  };
  effect(() => {
    if (!solved()) return;
    clearTimeout(timer);
    timer = setTimeout(keep, rest);
  });
  // A page that goes may not come back to keep it.
  globalThis.addEventListener?.("pagehide", () => {
    if (timer !== undefined) keep();
  });
}
