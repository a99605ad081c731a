/** Water and sleeves tap too. While the lock is on, the screen shows and touches do nothing. */
import { effect, signal } from "@preact/signals";
import { screenChanged } from "./guard";

const name = "wet-lock";

/** In localStorage, which is read before anything is painted: a phone that starts anew in a wet pocket stays locked. */
function wasLocked(): boolean {
  try {
    return localStorage.getItem(name) !== null;
  } catch {
    return false;
  }
}

export const locked = signal(wasLocked());

effect(() => {
  const now = locked.value;
  try {
    if (now) localStorage.setItem(name, "on");
    else localStorage.removeItem(name);
  } catch {
    // Not remembered then; the lock itself works.
  }
});

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
  // A hand that unlocks goes on tapping, where Fish up and It touched come to lie.
  screenChanged(1_200);
}
