/** Water and sleeves tap too. While the lock is on, the screen shows and touches do nothing. */
import { signal } from "@preact/signals";

export const locked = signal(false);

/** Of the two taps that unlock, the first is done. Drops do not tap two places in turn so soon. */
export const halfOpen = signal(false);
const soon = 3_000;
let ending: ReturnType<typeof setTimeout> | undefined;

export function lock(): void {
  locked.value = true;
  halfOpen.value = false;
}

export function tapFirst(): void {
  halfOpen.value = true;
  clearTimeout(ending);
  ending = setTimeout(() => {
    halfOpen.value = false;
  }, soon);
}

export function tapSecond(): void {
  if (!halfOpen.value) return;
  clearTimeout(ending);
  halfOpen.value = false;
  locked.value = false;
}
