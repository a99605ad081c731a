/** A readout that changes faster than twice a second cannot be read. */
import { type ReadonlySignal, signal } from "@preact/signals";

/** Follows a signal at most once per `ms`; the last value always comes through. */
export function calm<T>(source: ReadonlySignal<T>, ms = 500): ReadonlySignal<T> {
  const shown = signal(source.peek());
  let waiting = false;
  let last = Number.NEGATIVE_INFINITY;
  const pass = () => {
    waiting = false;
    last = performance.now();
    shown.value = source.peek();
  };
  source.subscribe((value) => {
    if (value === shown.peek()) return;
    const rest = last + ms - performance.now();
    if (rest <= 0) pass();
    else if (!waiting) {
      waiting = true;
      setTimeout(pass, rest);
    }
  });
  return shown;
}
