/**
 * What a pose may change of what axe judges by it: which colours words have on a page, and on what; and which parts of it
 * move on their own. Where two poses have the same, the judgement is the same.
 */
import type { Page } from "@playwright/test";
import { ask } from "./kept";

/**
 * One for each way in which words or a field look: their colour, whether they are large by WCAG 2.2, 1.4.3, all that they lie
 * on, and how far any of that is seen through. And one for each part that moves on its own, with whether keys reach it or
 * something in it. What lies over something else, out of the flow of the page, looks like nothing on another screen: it has
 * the screen's name with it. Of what axe leaves out there is none.
 */
export const looks = (page: Page, screen: string): Promise<string[]> =>
  ask(page, "looks", look, { screen, judged: false });

/** Of these, what axe has judged last: what it cannot decide, it has not. */
export const judgedLooks = (page: Page, screen: string): Promise<string[]> =>
  ask(page, "looks", look, { screen, judged: true });

/** Where in the page each look was seen last, and where axe's last judgement leaves what it has judged. */
export type Judging = { seen?: Map<string, Element[]>; judged?: Element[] };

/** Runs in the page. */
function look({ screen, judged }: { screen: string; judged: boolean }): string[] {
  const styles = new Map<Element, CSSStyleDeclaration>();
  const styleOf = (element: Element) => {
    let style = styles.get(element);
    if (!style) {
      style = getComputedStyle(element);
      styles.set(element, style);
    }
    return style;
  };
  /** From the words down to what nothing is seen through; where that is not beneath them in the page, the screen too. */
  const grounds = new Map<Element, string>();
  const groundOf = (element: Element | null): string => {
    if (!element) return "";
    let ground = grounds.get(element);
    if (ground === undefined) {
      const { backgroundColor, backgroundImage, position, zIndex } = styleOf(element);
      const own = `${backgroundColor} ${backgroundImage}`;
      const lies = zIndex !== "auto" || !["static", "relative"].includes(position);
      // What is around all screens lies over the same on each.
      const here = lies && element.closest("main") && screen;
      // How many clear ones lie over each other is all the same.
      const seen = [here, own !== "rgba(0, 0, 0, 0) none" && own].filter(Boolean).join(" ");
      if (backgroundColor.startsWith("rgb(")) ground = own;
      else ground = [seen, groundOf(element.parentElement)].filter(Boolean).join(", ");
      grounds.set(element, ground);
    }
    return ground;
  };
  /** How far it is seen through. */
  const through = new Map<Element, number>();
  const throughOf = (element: Element | null): number => {
    if (!element) return 1;
    let all = through.get(element);
    if (all === undefined) {
      all = Number(styleOf(element).opacity) * throughOf(element.parentElement);
      through.set(element, all);
    }
    return all;
  };
  const scrolls = (value: string) => value === "auto" || value === "scroll";
  const leftOut = ":disabled, [aria-disabled=true], [inert] *, .visually-hidden";
  const field = "input, select, textarea";
  const found = new Map<string, Element[]>();
  const add = (look: string, element: Element) => {
    const all = found.get(look);
    if (all) all.push(element);
    else found.set(look, [element]);
  };
  const lookAt = (element: Element) => {
    const { color, fill, fontSize, fontWeight, textShadow } = styleOf(element);
    const points = Number.parseFloat(fontSize) * 0.75;
    const large = points >= 18 || (points >= 14 && Number(fontWeight) >= 700);
    const paint = element instanceof SVGElement ? fill : color;
    const kind = element.matches(field) ? element.tagName : "";
    const ground = `${groundOf(element)}, ${throughOf(element)}`;
    add(`${kind} ${paint} ${textShadow} ${large} on ${ground}`.trim(), element);
  };
  const judging = window as unknown as Judging;
  if (judged) {
    for (const element of judging.judged ?? []) lookAt(element);
    return [...found.keys()];
  }
  const isSeen = (element: Element) =>
    element.checkVisibility({ checkVisibilityCSS: true }) &&
    throughOf(element) > 0 &&
    !element.closest(leftOut);
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    // A sign alone may be a picture.
    if (element && (node.textContent?.trim().length ?? 0) > 1 && isSeen(element)) lookAt(element);
  }
  for (const element of document.querySelectorAll(field)) if (isSeen(element)) lookAt(element);
  const reached = "a[href], button, input, select, textarea, summary, [tabindex]";
  for (const part of document.querySelectorAll("main, main *, .told-area")) {
    const { overflowX, overflowY } = styleOf(part);
    const moves =
      (scrolls(overflowY) && part.scrollHeight > part.clientHeight) ||
      (scrolls(overflowX) && part.scrollWidth > part.clientWidth);
    if (!moves) continue;
    const byKeys = part.matches(reached) || part.querySelector(reached) !== null;
    add(`<${part.tagName} ${part.className}> moves, ${byKeys}`, part);
  }
  judging.seen = found;
  return [...found.keys()];
}
