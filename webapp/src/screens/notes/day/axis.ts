/** Where an axis of time is marked. */

const minute = 60_000;
/** Minutes between marks, as a clock is read. */
const steps = [1, 2, 5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440];
/** More than so many would run into each other on a phone. */
const most = 5;

/** Round times from one to another, ms: as many as can be read side by side, and one at least where a minute is full. */
export function roundTimes(from: number, to: number): number[] {
  const step = minute * (steps.find((one) => (to - from) / (one * minute) < most) ?? 1440);
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.max(0, Math.floor(to / step) - first + 1) }, (_, i) => (first + i) * step);
}
