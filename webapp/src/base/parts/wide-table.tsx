/** A table that may be wider than its page: it is moved sideways on its own, by finger or keys. */
import type { ComponentChildren } from "preact";

export const WideTable = ({ name, children }: { name: string; children: ComponentChildren }) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: what is wider than its place is scrolled by keys too
  <section class="wide-table" tabIndex={0} aria-label={name}>
    {children}
  </section>
);
