/** Where the keyboard is when a screen comes up. */
import { cameBackFrom } from "./route";

/**
 * Come back, one is where one left: at the link that led away; while there is an alarm, what it is about stays in sight all
 * the same. Else at the heading, so that reading starts there.
 */
export function arrive(heading?: HTMLElement | null): void {
  const from = cameBackFrom();
  const link = from && document.querySelector<HTMLElement>(`.within a[href="${CSS.escape(from)}"]`);
  if (link) link.focus({ preventScroll: document.querySelector(".notices .alarm") !== null });
  else heading?.focus({ preventScroll: true });
  if (!link) scrollTo(0, 0);
}
