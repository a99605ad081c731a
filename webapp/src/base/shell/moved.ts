import type { RefObject } from "preact";
import { useLayoutEffect } from "preact/hooks";
import { pose } from "./pose";

type Part = RefObject<HTMLElement | null>;

/** Who moves by less stays under the finger, px. */
const least = 8;
/** For so many ms a tap on what has moved was meant for what stood there before; one meant for rod 2 would take rod 4. */
const meant = 500;
/** What takes them lies over all that moves (place.css): to forbid them to each part had each styled anew, and a list is long. */
const over = { duration: meant, pseudoElement: "::after" };

/**
 * Each time that what is told takes room of the list or leaves it, no tap counts for a moment on what that moves. Where all
 * flows as one page what is told lies over it, above what is noted in one tap: by its height there (told.css).
 */
export function useMoved(place: Part, list: Part): void {
  useLayoutEffect(() => {
    const now = place.current;
    const quick = now?.querySelector(".quick-bar");
    let height: number | undefined;
    const looks = new ResizeObserver((all) => {
      for (const { target } of all) {
        const { offsetHeight } = target as HTMLElement;
        if (target === quick) now?.style.setProperty("--quick", `${offsetHeight}px`);
        else {
          if (pose.value !== "flow" && Math.abs(offsetHeight - (height ?? offsetHeight)) >= least)
            target.parentElement?.animate({ pointerEvents: ["auto", "auto"] }, over);
          height = offsetHeight;
        }
      }
    });
    for (const one of [quick, list.current]) if (one) looks.observe(one, { box: "border-box" });
    return () => looks.disconnect();
  }, []);
}
