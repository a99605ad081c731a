/**
 * Wet fingers tap twice. A second tap on the same control within the time given is the first one's echo.
 * A stepper is tapped quickly on purpose, so its time is shorter.
 */
export const echo = { act: 500, step: 120 } as const;

let last = { target: undefined as EventTarget | null | undefined, time: Number.NEGATIVE_INFINITY };
let meant = Number.NEGATIVE_INFINITY;

/** Wraps what a tap does so that an echo does nothing. */
export function once(act: (event: MouseEvent) => void, lasting: number = echo.act) {
  return (event: MouseEvent): void => {
    const again = last.target === event.currentTarget && event.timeStamp - last.time < lasting;
    // What has only just appeared under the finger was not what it meant. Keys are pressed with more thought.
    const early = event.detail > 0 && event.timeStamp < meant;
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
  meant = performance.now() + ms;
}
