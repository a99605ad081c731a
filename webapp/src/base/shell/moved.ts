import type { RefObject } from "preact";
import { useEffect } from "preact/hooks";

/**
 * Marks what is looked at as moved each time that what is told takes or leaves room: for half a second no tap counts there,
 * since it was meant for what stood there before; one meant for rod 2 would take rod 4. The style sheet times it (place.css).
 */
export function useMoved(
  view: RefObject<HTMLElement | null>,
  ...parts: RefObject<HTMLElement | null>[]
): void {
  useEffect(() => {
    const heights = new Map<Element, number>();
    const looks = new ResizeObserver((all) => {
      let moved = false;
      for (const { target } of all) {
        const { clientHeight } = target;
        moved ||= Math.abs(clientHeight - (heights.get(target) ?? clientHeight)) >= least;
        heights.set(target, clientHeight);
      }
      // By turns, so that the time begins anew.
      if (moved && view.current)
        view.current.dataset.moved = view.current.dataset.moved === "now" ? "again" : "now";
    });
    for (const { current } of parts) if (current) looks.observe(current);
    return () => looks.disconnect();
  }, []);
}

/** Who moves by less stays under the finger, px. */
const least = 8;
