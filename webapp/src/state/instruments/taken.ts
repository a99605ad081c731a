/** What the app takes from the instruments by itself, once somebody has said so; and that it does not come any more. */
import { batch, computed, effect, signal, untracked } from "@preact/signals";
import { limits as ofWater } from "../../base/desk/types/seawater.gen";
import { type Moment, now, since } from "../../base/position/moment";
import { offerUndo } from "../../base/shell/undo";
import { Kept } from "../../base/store/kept";
import { flag, record } from "../../base/store/shape";
import { text } from "../../base/text/text";
import { units } from "../../base/units/settings";
import { fromSi, roundTo, scaleOf, toSi } from "../../base/units/units";
import { soundedNow } from "../spread/request";
import { change } from "../spread/solved";
import { spread } from "../spread/spread";
import { water } from "../spread/water";
import { depthHeard, heard, type Name, second, type Value, valueHeard } from "./heard";

export interface Taken {
  /** Bottom on Lines, the speed through the water, and the water's temperature. */
  depth: boolean;
  speed: boolean;
  warmth: boolean;
  /** Somebody was asked, and has said yes or no. */
  asked: boolean;
}

export const taken = new Kept<Taken>(
  "instruments",
  record<Taken>({ depth: flag, speed: flag, warmth: flag, asked: flag }),
  { depth: false, speed: false, warmth: false, asked: false },
);

export type Part = "depth" | "speed" | "warmth";
export const parts: Part[] = ["depth", "speed", "warmth"];

const names: { [P in Exclude<Part, "depth">]: Name } = { speed: "waterSpeed", warmth: "waterTemperature" };

/** Whether it is heard now. */
export const isHeard = (part: Part): boolean =>
  part === "depth" ? depthHeard.value !== undefined : valueHeard(names[part]) !== undefined;

export const take = (patch: Partial<Taken>): void => taken.set({ ...taken.value, ...patch });

/** What is gone by and heard; undefined: by hand, or not heard. */
export const warmthNow = (): Value | undefined =>
  taken.value.warmth ? valueHeard("waterTemperature") : undefined;

/** Set by hand: from now on it is what the hand says. */
export function letGo(part: Part): void {
  if (!taken.value[part]) return;
  take({ [part]: false });
  offerUndo(text.heard.byHand(text.heard.parts[part]), () => take({ [part]: true }));
}

/** Bottom on Lines follows as it is stepped, where it differs by so much, m, and no more often than so many ms. */
const least = 0.25;
const every = 3000;

/** A depth as the person steps it. */
function stepped(depth: number): number {
  const { unit, step } = scaleOf("depth", units());
  return toSi(roundTo(fromSi(depth, unit), step), unit);
}
/** The water's temperature in steps of so much, °C; it changes slowly, and everything is solved anew for it. */
const warmer = 0.5;

/** When each was heard last; of what was not since the app was started nothing is missed. */
const last = signal<{ [P in Part]?: Moment }>({});

/** Only what steers is missed aloud. */
const steers: Part[] = ["depth", "speed"];

export interface Lost {
  part: Part;
  at: Moment;
}

/** What the app goes by and does not hear any more. */
export const lost = computed<Lost[]>(() => {
  second.value;
  return steers.flatMap((part) => {
    const at = last.value[part];
    return taken.value[part] && at && !isHeard(part) ? [{ part, at }] : [];
  });
});

export const ageOfLost = ({ at }: Lost): number => since(at);

/** Noted: it is by hand until it is heard again. */
export const noteLost = (): void => {
  const noted = lost.value.map(({ part }) => [part, undefined]);
  last.value = { ...last.value, ...Object.fromEntries(noted) };
};

export function keepTaking(): void {
  let followed = Number.NEGATIVE_INFINITY;
  effect(() => {
    if (!heard.value) return;
    for (const part of steers) {
      if (isHeard(part)) untracked(() => (last.value = { ...last.value, [part]: now() }));
    }
  });
  effect(() => {
    soundedNow.value = taken.value.depth && depthHeard.value !== undefined;
  });
  effect(() => {
    const depth = depthHeard.value;
    if (!depth || !taken.value.depth || performance.now() - followed < every) return;
    untracked(() => {
      if (Math.abs(depth.value - spread.value.bottom) < least) return;
      followed = performance.now();
      change({ bottom: stepped(depth.value) });
    });
  });
  effect(() => {
    const warmth = valueHeard("waterTemperature");
    if (!warmth || !taken.value.warmth) return;
    untracked(() => {
      const { min, max } = ofWater.Query.temperature;
      const temperature = Math.min(Math.max(Math.round(warmth.value / warmer) * warmer, min), max);
      if (Math.abs(warmth.value - water.value.temperature) > warmer)
        batch(() => water.set({ ...water.value, temperature }));
    });
  });
}
