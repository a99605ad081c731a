/** Keeps the screen on as long as it is wanted and the page is in sight. */
import { effect, signal } from "@preact/signals";

/** Whether the screen is held on now. */
export const awake = signal(false);

let lock: WakeLockSentinel | undefined;

/** Follows what is wanted. A browser lets go when the page goes out of sight; it is asked again when it is back. */
export function keepAwake(wanted: () => boolean): void {
  const follow = async () => {
    if (!wanted()) {
      await lock?.release();
      return;
    }
    if (lock || document.visibilityState !== "visible" || !navigator.wakeLock) return;
    // Low battery and some settings refuse it: then the screen goes off as it always did.
    const got = await navigator.wakeLock.request("screen").catch(() => undefined);
    if (!got) return;
    lock = got;
    awake.value = true;
    got.addEventListener("release", () => {
      if (lock === got) lock = undefined;
      awake.value = lock !== undefined;
    });
    if (!wanted()) await got.release();
  };
  effect(() => {
    wanted();
    follow();
  });
  document.addEventListener("visibilitychange", follow);
}
