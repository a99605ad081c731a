/**
 * Wet fingers tap twice. A second tap on the same control within the time given is the first one's echo.
 * A stepper is tapped quickly on purpose, so its time is shorter.
 */
export const echo = { act: 500, step: 120 } as const;
/** What throws something away stands where the tap before it was: for so many ms a second one is not meant for it. */
export const considered = 1000;

let last = { target: undefined as EventTarget | null | undefined, time: Number.NEGATIVE_INFINITY };
let meant = Number.NEGATIVE_INFINITY;
let changed = Number.NEGATIVE_INFINITY;

/** Wraps what a tap does so that an echo does nothing, nor what comes sooner after the screen has changed. */
export function once(act: (event: MouseEvent) => void, lasting: number = echo.act, after = 0) {
  return (event: MouseEvent): void => {
    const again = last.target === event.currentTarget && event.timeStamp - last.time < lasting;
    // What has only just appeared under the finger was not what it meant. Keys are pressed with more thought.
    const early = event.detail > 0 && event.timeStamp < Math.max(meant, changed + after);
    if (again || early) {
      event.preventDefault();
      return;
    }
    last = { target: event.currentTarget, time: event.timeStamp };
    act(event);
  };
}

/** Another screen has just taken the place of the one that was tapped: for so many ms a tap may not be meant for it. */
export function screenChanged(ms = 250): void {
  changed = performance.now();
  meant = changed + ms;
}
