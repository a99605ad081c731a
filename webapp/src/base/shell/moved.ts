import type { RefObject } from "preact";
import { useEffect } from "preact/hooks";
import { pose } from "./pose";

type Part = RefObject<HTMLElement | null>;

/** Who moves by less stays under the finger, px. */
const least = 8;

/**
 * Marks a place as moved each time that what is told takes or leaves room: for half a second no tap counts on what that moves,
 * since it was meant for what stood there before; one meant for rod 2 would take rod 4. The style sheet times it (place.css).
 */
export function useMoved(place: Part, told: Part, list: Part): void {
  useEffect(() => {
    const heights = new Map<Element, number>();
    const looks = new ResizeObserver((all) => {
      let moved = false;
      for (const { target } of all) {
        const { clientHeight } = target;
        // What is told takes its room of the list; where all flows as one page, that is as high as what is in it.
        const tells = (target === told.current) === (pose.value === "flow");
        moved ||= tells && Math.abs(clientHeight - (heights.get(target) ?? clientHeight)) >= least;
        heights.set(target, clientHeight);
      }
      const now = place.current;
      // By turns, so that the time begins anew.
      if (moved && now) now.dataset.moved = now.dataset.moved === "now" ? "again" : "now";
    });
    for (const { current } of [told, list]) if (current) looks.observe(current);
    return () => looks.disconnect();
  }, []);
}
