/** The mark of what comes by itself from the boat's instruments: rings that spread from a point on the hull. */
import { text } from "../../text/text";
import { age } from "../../units/show";

export const Rings = () => (
  <svg class="live" viewBox="0 0 20 14" aria-hidden="true">
    <path d="M2 3h16l-3 4H5z" />
    <path class="rings" d="M7 9.5q3 2 6 0M5 12q5 3 10 0" />
  </svg>
);

/** What was said this short a time ago, s, is of now: they say it once a second. */
const fresh = 2;

/** How old what was said so many s ago is; undefined: it is of now. */
export const oldWords = (seconds: number): string | undefined =>
  seconds < fresh ? undefined : age(seconds * 1000);

/** Whose it is, and how old. */
export function liveWords(seconds: number): string {
  const words = oldWords(seconds);
  return words ? text.heard.mark(words) : text.heard.live;
}

/**
 * The mark with how old the number is, s, unless that is undefined: then it is not theirs. Only the mark is drawn anew while
 * the number grows old, and the age has its room before there is one.
 */
export function Live({ age: of }: { age: () => number | undefined }) {
  const seconds = of();
  if (seconds === undefined) return null;
  return (
    <span class="live-mark">
      <Rings />
      <span class="live-age" aria-hidden="true">
        {oldWords(seconds)}
      </span>
      <span class="visually-hidden"> {liveWords(seconds)}</span>
    </span>
  );
}
