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

/** What comes by itself lies over what a finger may be on its way to: so long it lets taps through to that. */
export function useComing(notice: Part, itself: boolean): void {
  useLayoutEffect(() => {
    const now = notice.current;
    if (itself)
      for (const part of [now, now?.closest(".told-area")])
        part?.animate({ pointerEvents: ["none", "none"] }, meant);
  }, []);
}

/**
 * Each time that what is told takes room of the list or leaves it, no tap counts for a moment on what that moves. Where all
 * flows as one page what is told lies over it, above what is noted in one tap: by their heights there (told.css).
 */
export function useMoved(place: Part, list: Part): void {
  useLayoutEffect(() => {
    const now = place.current;
    const heights = {
      "--quick": now?.querySelector(".quick-bar"),
      "--told": now?.querySelector(".told-area"),
    };
    let height: number | undefined;
    const looks = new ResizeObserver((all) => {
      for (const { target } of all) {
        const { offsetHeight } = target as HTMLElement;
        const [name] = Object.entries(heights).find(([, part]) => part === target) ?? [];
        if (name) now?.style.setProperty(name, `${offsetHeight}px`);
        else {
          if (pose.value !== "flow" && Math.abs(offsetHeight - (height ?? offsetHeight)) >= least)
            target.parentElement?.animate({ pointerEvents: ["auto", "auto"] }, over);
          height = offsetHeight;
        }
      }
    });
    for (const one of [...Object.values(heights), list.current])
      if (one) looks.observe(one, { box: "border-box" });
    return () => looks.disconnect();
  }, []);
}
