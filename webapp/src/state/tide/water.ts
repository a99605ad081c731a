/** The water at a place and a time, as the tables predict it: which place is meant, and the current of now for Pace. */
import { effect, signal, untracked } from "@preact/signals";
import { Died, desk, Refused } from "../../base/desk/desk";
import type { Predicted } from "../../base/desk/types/current.gen";
import type { Hour, Phase } from "../../base/desk/types/day.gen";
import type { Place } from "../../base/desk/types/tide.gen";
import { lastFix } from "../../base/position/position";
import { Kept } from "../../base/store/kept";
import { number, orNone, record, words } from "../../base/store/shape";
import { knownCurrent } from "../pace/current";

const radians = Math.PI / 180;

/** The ground that predictions are for: stations chosen there stay with it. Empty ids: the nearest. */
export interface Ground {
  lat: number;
  lon: number;
  tide: string;
  stream: string;
}

export const ground = new Kept<Ground | null>(
  "tide ground",
  orNone(record<Ground>({ lat: number, lon: number, tide: words, stream: words })),
  null,
);

export const placeOf = ({ lat, lon }: { lat: number; lon: number }): Place => ({
  lat: lat * radians,
  lon: lon * radians,
});

/** Where predictions are wanted: where the phone is, or the ground that was kept last. */
export const here = (): { lat: number; lon: number } | undefined =>
  lastFix.value?.fix ?? ground.value ?? undefined;

/** Keeps the place of now, so that the next day can be planned at the dock without a fix. */
export function keepGround(change: Partial<Ground>): void {
  const at = here();
  if (!at) return;
  ground.set({ lat: at.lat, lon: at.lon, tide: "", stream: "", ...ground.value, ...change });
}

/** The hours of moments, in their order; undefined while there are no tables. */
export async function hoursOf(
  moments: { at: number; lat: number; lon: number }[],
): Promise<Hour[] | undefined> {
  try {
    const asked = moments.map(({ at, lat, lon }) => ({ time: at / 1000, place: placeOf({ lat, lon }) }));
    return (await desk.ask("moments", { moments: asked })).hours;
  } catch (fault) {
    if (fault instanceof Refused || fault instanceof Died) return undefined;
    throw fault;
  }
}

/** The current that is predicted of now, where the phone is; undefined: no station near enough, or no tables. */
export const predicted = signal<{ at: number; phase: Phase; before?: Phase | undefined } | undefined>(
  undefined,
);

/** As the desk takes it. */
export function predictedNow(): Predicted | undefined {
  const now = predicted.value;
  if (!now?.phase.directed) return undefined;
  const before = now.before?.directed ? now.before : undefined;
  return {
    set: now.phase.set,
    drift: Math.abs(now.phase.value),
    doubt: Math.min(10, Math.max(0.01, now.phase.doubt)),
    ...(before && { before: { set: before.set, drift: Math.abs(before.value) } }),
  };
}

/** A prediction is asked anew after so many ms. */
const holds = 60_000;

/** Keeps the prediction of now up with the receiver, and with the time when the current was found. */
export function keepPredicted(): void {
  let asked = Number.NEGATIVE_INFINITY;
  let of = "";
  effect(() => {
    const fix = lastFix.value?.fix;
    const found = knownCurrent.signal.value?.at ?? 0;
    desk.restarts.value;
    if (!fix) return;
    const now = performance.now();
    if (of === String(found) && now - asked < holds) return;
    asked = now;
    of = String(found);
    untracked(() => ask(fix, found));
  });
}

async function ask(fix: { lat: number; lon: number }, found: number): Promise<void> {
  const at = Date.now();
  const moments = [at, ...(found > 0 ? [found] : [])].map((time) => ({
    at: time,
    lat: fix.lat,
    lon: fix.lon,
  }));
  const [now, before] = (await hoursOf(moments)) ?? [];
  predicted.value = now?.stream && { at, phase: now.stream, before: before?.stream };
}
