/** The current of now as the tables predict it, and as it was when the current was found. */
import { computed, effect, signal, untracked } from "@preact/signals";
import { desk } from "../../../base/desk/desk";
import type { Predicted } from "../../../base/desk/types/current.gen";
import type { Phase } from "../../../base/desk/types/day.gen";
import { lastFix } from "../../../base/position/position";
import { chartHere, here, hoursOf, stationsChosen } from "../../tide/water";
import { knownCurrent } from "./found";

/** The current predicted of now where the phone is, by the station chosen or the nearest; undefined: none near, or no tables. */
export const predicted = signal<{ at: number; phase: Phase; before?: Phase | undefined } | undefined>(
  undefined,
);

/** How high the tide stands there, m above the chart's datum; undefined: no station near enough, or no tables. */
export const heightNow = signal<{ at: number; height: number } | undefined>(undefined);

/** How deep the water is by the chart, as typed, and the tide; undefined where one of them is not known. */
export const chartedDepth = computed(() => {
  const chart = chartHere();
  const depth = chart + (heightNow.value?.height ?? 0);
  return chart > 0 && heightNow.value && depth > 0 ? { depth, height: heightNow.value.height } : undefined;
});

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
  const again = signal(0);
  setInterval(() => again.value++, holds);
  effect(() => {
    again.value;
    lastFix.value;
    const fix = here();
    const found = knownCurrent.signal.value?.at ?? 0;
    const chosen = stationsChosen();
    desk.restarts.value;
    if (!fix) return;
    const now = performance.now();
    const gist = `${found} ${chartHere()} ${chosen.tide} ${chosen.stream}`;
    if (of === gist && now - asked < 0.99 * holds) return;
    asked = now;
    of = gist;
    untracked(() => ask({ ...fix, ...chosen }, found));
  });
}

interface Asked {
  lat: number;
  lon: number;
  tide: string;
  stream: string;
}

async function ask({ lat, lon, tide, stream }: Asked, found: number): Promise<void> {
  const at = Date.now();
  const moments = [at, ...(found > 0 ? [found] : [])].map((time) => ({ at: time, lat, lon, tide, stream }));
  const [now, before] = (await hoursOf(moments)) ?? [];
  predicted.value = now?.stream && { at, phase: now.stream, before: before?.stream };
  heightNow.value = now?.tide && { at, height: now.tide.value };
}
