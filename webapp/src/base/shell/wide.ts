/** Whether there is room for everything side by side; the style sheets use the same width. */
import { signal } from "@preact/signals";

const roomy = matchMedia("(min-width: 1000px)");

export const wide = signal(roomy.matches);

roomy.addEventListener("change", () => {
  wide.value = roomy.matches;
});
