/**
 * What a pose may change of what axe judges by it: which colours words have on a page, and on what; and which parts of it
 * move on their own. Where two poses have the same, the judgement is the same.
 */
import type { Page } from "@playwright/test";
import { ask } from "./kept";

/**
 * One for each pair: the colour of words, whether they are large by WCAG 2.2, 1.4.3, and all that they lie on. And one for
 * each part that moves on its own, with whether keys reach it or something in it.
 */
export const looks = (page: Page): Promise<string[]> => ask(page, "looks", look, undefined);

/** Runs in the page. */
function look(): string[] {
  const styles = new Map<Element, CSSStyleDeclaration>();
  const styleOf = (element: Element) => {
    let style = styles.get(element);
    if (!style) {
      style = getComputedStyle(element);
      styles.set(element, style);
    }
    return style;
  };
  /** From the words down to what nothing is seen through. */
  const grounds = new Map<Element, string>();
  const groundOf = (element: Element | null): string => {
    if (!element) return "";
    let ground = grounds.get(element);
    if (ground === undefined) {
      const { backgroundColor, backgroundImage, opacity } = styleOf(element);
      const own = `${backgroundColor} ${backgroundImage} ${opacity}`;
      const hides = backgroundColor.startsWith("rgb(") && opacity === "1";
      if (hides) ground = own;
      // How many clear ones lie over each other is all the same.
      else if (own === "rgba(0, 0, 0, 0) none 1") ground = groundOf(element.parentElement);
      else ground = `${own}, ${groundOf(element.parentElement)}`;
      grounds.set(element, ground);
    }
    return ground;
  };
  const scrolls = (value: string) => value === "auto" || value === "scroll";
  const found = new Set<string>();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (!element || !node.textContent?.trim() || !element.checkVisibility({ checkVisibilityCSS: true }))
      continue;
    const { color, fill, fontSize, fontWeight, textShadow } = styleOf(element);
    const points = Number.parseFloat(fontSize) * 0.75;
    const large = points >= 18 || (points >= 14 && Number(fontWeight) >= 700);
    found.add(
      `${element instanceof SVGElement ? fill : color} ${textShadow} ${large} on ${groundOf(element)}`,
    );
  }
  const reached = "a[href], button, input, select, textarea, summary, [tabindex]";
  for (const part of document.querySelectorAll("main, main *, .told-area")) {
    const { overflowX, overflowY } = styleOf(part);
    const moves =
      (scrolls(overflowY) && part.scrollHeight > part.clientHeight) ||
      (scrolls(overflowX) && part.scrollWidth > part.clientWidth);
    if (!moves) continue;
    const byKeys = part.matches(reached) || part.querySelector(reached) !== null;
    found.add(`<${part.tagName} ${part.className}> moves, ${byKeys}`);
  }
  return [...found];
}
