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
 * flows as one page what is told lies over it, above what is noted in one tap.
 */
export function useMoved(place: Part, list: Part): void {
  const flows = pose.value === "flow";
  useLayoutEffect(() => {
    const looks = flows ? heightsOf(place.current) : movesOf(list.current);
    return () => looks.disconnect();
  }, [flows]);
}

function movesOf(list: HTMLElement | null): ResizeObserver {
  let height: number | undefined;
  const looks = new ResizeObserver(() => {
    const now = list?.offsetHeight ?? 0;
    if (Math.abs(now - (height ?? now)) >= least)
      list?.parentElement?.animate({ pointerEvents: ["auto", "auto"] }, over);
    height = now;
  });
  if (list) looks.observe(list, { box: "border-box" });
  return looks;
}

/** Tells the style sheet (told.css) how high is what stays. All are read before one is told: that has all of the place styled anew. */
function heightsOf(place: HTMLElement | null): ResizeObserver {
  const parts = { "--quick": ".quick-bar", "--told": ".told-area" };
  const found = Object.entries(parts).map(
    ([name, part]) => [name, place?.querySelector<HTMLElement>(part)] as const,
  );
  const looks = new ResizeObserver(() => {
    const heights = found.map(([name, part]) => [name, `${part?.offsetHeight ?? 0}px`] as const);
    for (const [name, height] of heights) place?.style.setProperty(name, height);
  });
  for (const [, part] of found) if (part) looks.observe(part, { box: "border-box" });
  return looks;
}
