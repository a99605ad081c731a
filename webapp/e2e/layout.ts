/** What is wrong with how a page is laid out: cut, overlapping, too small to hit, or outside the screen. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { ask } from "./kept";

/** The addresses of all pages and places, as the app itself has them; “:id” stands for any one part. */
export const addresses: string[] = ["routes.ts", "places.ts"].flatMap((file) =>
  [
    ...readFileSync(join(import.meta.dirname, "../src/app", file), "utf8").matchAll(
      /path: ["`]([^"`]+)["`]/g,
    ),
  ].map(([, path = ""]) => path.replace(/\$\{\w+\}/, ":kind")),
);

/** Whether a path is one of an address. */
export const isOf = (address: string, path: string): boolean =>
  new RegExp(`^${address.replace(/:\w+/g, "[^/]+")}$`).test(path);

/** In CSS pixels; a finger in a wet glove hits no less. */
const least = { width: 48, height: 56 };
/** As high as they are on the screen: words by the size of letters that the person has set, in a drawing in CSS pixels. */
const letters = { words: 0.9, drawn: 15 };

/** No drawing tells anything that is narrower, CSS pixels. */
const drawn = 50;

export const faults = (page: Page): Promise<string[]> => ask(page, "faults", look, { least, letters, drawn });

/** Runs in the page. */
function look({
  least,
  letters,
  drawn,
}: {
  least: { width: number; height: number };
  letters: { words: number; drawn: number };
  drawn: number;
}): string[] {
  interface Box {
    left: number;
    right: number;
    top: number;
    bottom: number;
  }
  interface Seen {
    element: Element;
    box: Box;
    layer: Element;
  }
  const found = new Set<string>();
  const page = document.documentElement;
  const flows = page.dataset.pose === "flow";
  const controlled =
    'a[href], button, select, textarea, summary, [role="button"], input:not([type="radio"], [type="checkbox"], [type="file"]), label:has(input[type="radio"], input[type="checkbox"], input[type="file"])';
  const words = (element: Element) =>
    `<${element.tagName.toLowerCase()} ${element.getAttribute("class") ?? ""}> “${(element.textContent ?? "").trim().slice(0, 40)}”`;
  const styles = new Map<Element, CSSStyleDeclaration>();
  const styleOf = (element: Element) => {
    let style = styles.get(element);
    if (!style) {
      style = getComputedStyle(element);
      styles.set(element, style);
    }
    return style;
  };
  const up = (element: Element): Element[] => {
    const all: Element[] = [];
    for (let at: Element | null = element.parentElement; at && at !== page; at = at.parentElement)
      all.push(at);
    return all;
  };
  const shown = (element: Element) =>
    element.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true }) &&
    ![element, ...up(element)].some((at) => styleOf(at).clipPath === "inset(50%)");
  const scrolls = (value: string) => value === "auto" || value === "scroll";
  /** What stays while the rest scrolls is a layer of its own; what may lie over it is not a fault. */
  const layerOf = (element: Element): Element =>
    [element, ...up(element)].find((at) => {
      const { position, overflowY } = styleOf(at);
      return position === "sticky" || position === "fixed" || scrolls(overflowY);
    }) ?? page;
  const pinned = (layer: Element) => layer !== page && !scrolls(styleOf(layer).overflowY);
  const common = (a: Box, b: Box) => ({
    across: Math.min(a.right, b.right) - Math.max(a.left, b.left),
    down: Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top),
  });

  const root = Number.parseFloat(styleOf(page).fontSize);
  /** Lines of words, each as high as its small letters with what rises above them. */
  const lines: Seen[] = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (!element || !node.textContent?.trim() || !shown(element)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const clamped = element.closest(".told-line, .trip-line")?.getBoundingClientRect();
    const size = Number.parseFloat(styleOf(element).fontSize);
    const half = 0.36 * size;
    const drawnAt = element instanceof SVGGraphicsElement ? (element.getScreenCTM()?.d ?? 1) : undefined;
    const isSmall =
      drawnAt === undefined ? size < letters.words * root - 0.1 : size * drawnAt < letters.drawn;
    if (isSmall) found.add(`letters of ${(size * (drawnAt ?? 1)).toFixed(1)} px: ${words(element)}`);
    const rows = [...range.getClientRects()];
    // In large print a long word is hyphenated, where the browser has the dictionary, but never a number or the name of a
    // place. What is copied letter by letter may break.
    const whole = flows && !element.closest(".bar") ? /\p{N}{2,}/gu : /[\p{L}\p{N}]{3,}/gu;
    if (rows.length > 1 && !element.closest("svg, code, .code, .literal, .fingerprint, .address"))
      for (const { 0: word, index } of node.textContent.matchAll(whole)) {
        range.setStart(node, index);
        range.setEnd(node, index + word.length);
        const [first, ...rest] = range.getClientRects();
        if (first && rest.some(({ top, width }) => width >= 1 && top > first.bottom - 2))
          found.add(`a word is broken, ${word}: ${words(element)}`);
      }
    for (const { left, right, top, bottom } of rows) {
      if (right - left < 1) continue;
      const middle = (top + bottom) / 2;
      if (clamped && middle > clamped.bottom) continue;
      const scaled = element instanceof SVGElement ? Math.min(half, (bottom - top) * 0.32) : half;
      lines.push({
        element,
        box: { left, right, top: middle - scaled, bottom: middle + scaled },
        layer: layerOf(element),
      });
    }
  }
  const controls: Seen[] = [...document.querySelectorAll(controlled)]
    .filter((element) => shown(element))
    .map((element) => ({ element, box: element.getBoundingClientRect(), layer: layerOf(element) }));

  for (const { element, box } of lines) {
    // A table may be moved sideways on its own (WCAG 1.4.10).
    if (element.closest(".wide-table")) continue;
    if (box.left < -1 || box.right > page.clientWidth + 1) found.add(`outside the screen: ${words(element)}`);
    let scrolled = false;
    for (const at of [element, ...up(element)]) {
      // Their pages have them whole.
      if (at.matches(".told-line, .trip-line")) break;
      const { overflowX, overflowY } = styleOf(at);
      if (overflowX === "visible" && overflowY === "visible") continue;
      const clip = at.getBoundingClientRect();
      if (at instanceof HTMLInputElement || clip.width === 0) continue;
      if (box.left < clip.left - 1 || box.right > clip.right + 1)
        found.add(`cut at a side: ${words(element)}`);
      scrolled ||= scrolls(overflowY);
      if (!scrolled && (box.top < clip.top - 1 || box.bottom > clip.bottom + 1))
        found.add(`cut above or below: ${words(element)}`);
    }
    const holder = element.closest(`${controlled}, .notice, .check, .stepper, .call`);
    const moves = [element, ...up(element)].find((at) => at === holder || scrolls(styleOf(at).overflowY));
    if (holder && moves === holder && !(element instanceof SVGElement)) {
      const frame = holder.getBoundingClientRect();
      const { display, borderLeftWidth } = styleOf(holder);
      const inside = borderLeftWidth === "0px" ? -1 : 1;
      if (
        display !== "inline" &&
        (box.left < frame.left + inside ||
          box.right > frame.right - inside ||
          box.top < frame.top ||
          box.bottom > frame.bottom)
      )
        found.add(`out of its frame: ${words(element)} of ${words(holder)}`);
    }
  }

  for (const mark of document.querySelectorAll("main svg.icon")) {
    const words = mark.nextSibling instanceof Text ? mark.nextSibling : mark.nextSibling?.nextSibling;
    if (!(words instanceof Text) || !words.data.trim() || !shown(mark)) continue;
    const range = document.createRange();
    range.selectNodeContents(words);
    const [line] = [...range.getClientRects()].filter(({ width }) => width > 1);
    if (line && line.top > mark.getBoundingClientRect().bottom - 2)
      found.add(`a mark stands above its words: ${words.data.trim().slice(0, 40)}`);
  }

  const together = (a: Seen, b: Seen) => a.layer === b.layer || (pinned(a.layer) && pinned(b.layer));
  const related = (a: Element, b: Element) => a === b || a.contains(b) || b.contains(a);
  for (const [i, one] of lines.entries()) {
    for (const other of lines.slice(i + 1)) {
      if (one.element === other.element || !together(one, other)) continue;
      const { across, down } = common(one.box, other.box);
      if (across > 1 && down > 1)
        found.add(`over each other: ${words(one.element)}, ${words(other.element)}`);
    }
    for (const control of controls) {
      if (related(one.element, control.element) || !together(one, control)) continue;
      // Why a number was refused stands in its place, and a tap on it types another.
      if (one.element.matches(".field-trouble") && one.element.parentElement?.contains(control.element))
        continue;
      const { across, down } = common(one.box, control.box);
      if (across > 1 && down > 1)
        found.add(`words on a control: ${words(one.element)}, ${words(control.element)}`);
    }
    // A mark of a scale through a number.
    const drawing = one.element.closest("svg");
    const backed = one.element.previousElementSibling?.matches("circle, rect");
    // Words with a rim of their own ground are drawn over the ring.
    const { paintOrder, stroke } = styleOf(one.element);
    const rimmed = paintOrder.startsWith("stroke") && stroke !== "none";
    for (const ring of rimmed ? [] : (drawing?.querySelectorAll("circle") ?? [])) {
      const { left, right, top, bottom } = ring.getBoundingClientRect();
      const radius = (right - left) / 2;
      if (backed || radius < 12 || !shown(ring) || styleOf(ring).stroke === "none") continue;
      const [x, y] = [(left + right) / 2, (top + bottom) / 2];
      const { box } = one;
      const near = Math.hypot(
        Math.max(box.left - x, 0, x - box.right),
        Math.max(box.top - y, 0, y - box.bottom),
      );
      const far = Math.hypot(Math.max(x - box.left, box.right - x), Math.max(y - box.top, box.bottom - y));
      if (near < radius - 1 && far > radius + 1)
        found.add(`a ring through words: ${words(one.element)}, ${ring.getAttribute("class")}`);
    }
    const covered = rimmed && Number.parseFloat(styleOf(one.element).strokeWidth) >= 4;
    for (const mark of covered ? [] : (drawing?.querySelectorAll("path, line, rect") ?? [])) {
      // What was drawn before the ground of a number does not show through.
      if (backed && mark.compareDocumentPosition(one.element) & Node.DOCUMENT_POSITION_FOLLOWING) continue;
      const { left, right, top, bottom } = mark.getBoundingClientRect();
      const [wide, high] = [right - left, bottom - top];
      if ((wide > 3 && high > 3) || wide + high < 4 || !shown(mark)) continue;
      const { across, down } = common(one.box, {
        left: left - 0.5,
        right: right + 0.5,
        top: top - 0.5,
        bottom: bottom + 0.5,
      });
      if (across > 0 && down > 0 && (wide > 3 ? across : down) > 2)
        found.add(
          `a line through words: ${words(one.element)}, ${mark.getAttribute("class") ?? mark.parentElement?.getAttribute("class")}`,
        );
    }
  }
  for (const [i, one] of controls.entries()) {
    for (const other of controls.slice(i + 1)) {
      if (related(one.element, other.element) || !together(one, other)) continue;
      const { across, down } = common(one.box, other.box);
      if (across > 1 && down > 1)
        found.add(`controls over each other: ${words(one.element)}, ${words(other.element)}`);
    }
    const { left, right, top, bottom } = one.box;
    if (left < -1 || right > page.clientWidth + 1) found.add(`outside the screen: ${words(one.element)}`);
    if (right - left < least.width - 0.5 || bottom - top < least.height - 0.5)
      found.add(
        `too small to hit, ${Math.round(right - left)} × ${Math.round(bottom - top)}: ${words(one.element)}`,
      );
    const always = one.element.matches(".bar a, .quick-bar button, .top button, .top a, .page-back a");
    if (always && !flows && (top < -1 || bottom > innerHeight + 1))
      found.add(`not always in reach: ${words(one.element)}`);
  }
  if (page.scrollWidth > page.clientWidth + 1) {
    const wide = [...document.body.querySelectorAll("*")].filter(
      (one) => one.getBoundingClientRect().right > page.clientWidth + 1,
    );
    found.add(`the page is wider than the screen: ${wide.slice(0, 3).map(words).join(", ")}`);
  }
  for (const part of document.querySelectorAll("main, main *")) {
    const { overflowX } = styleOf(part);
    if (scrolls(overflowX) && !part.matches(".wide-table") && part.scrollWidth > part.clientWidth + 1)
      found.add(`moves sideways by ${part.scrollWidth - part.clientWidth} px: ${words(part)}`);
  }
  for (const drawing of document.querySelectorAll('main svg[role="img"]')) {
    const { width, height } = drawing.getBoundingClientRect();
    if (shown(drawing) && width < drawn)
      found.add(`a drawing of ${Math.round(width)} × ${Math.round(height)}: ${words(drawing)}`);
  }
  const told = document.querySelector(".told-area");
  const onPage = document.querySelector(".page-end > .notices");
  const opened = document.querySelector(".told-area [aria-expanded=true]");
  // An alarm is seen whole, with what is done about it; what is told beside it can be scrolled to.
  const alarm = (told ?? onPage)?.querySelector(".alarm, .notice:has(.rise-do)");
  const seen = (told ?? onPage)?.getBoundingClientRect();
  const quick = document.querySelector(".quick-bar")?.getBoundingClientRect().top ?? innerHeight;
  // In large print its words are seen whole, but in Pace, which has a row more of buttons; what is done about it may be below.
  const toDo = flows && innerHeight >= 480 ? alarm?.querySelector("p") : alarm;
  if (toDo && seen && (!flows || (innerHeight >= 480 && !document.querySelector(".pace")))) {
    const { bottom } = toDo.getBoundingClientRect();
    if (bottom > Math.min(seen.bottom, quick, innerHeight) + 1) found.add(`an alarm is cut: ${words(toDo)}`);
  }
  if (told && !flows && !opened && !alarm && told.scrollHeight > told.clientHeight + 1)
    found.add(
      `of what is told only ${told.clientHeight} of ${told.scrollHeight} px are seen: ${words(told)}`,
    );
  // Under the wet lock nothing is dialled, and an alarm in its bar takes of the rest.
  const pressed = document.querySelector(".wet-lock .notice");
  const inLock = document.querySelector(".wet-lock .notices");
  if (inLock && innerHeight >= 480 && inLock.scrollHeight > inLock.clientHeight + 1)
    found.add(`in the lock only ${inLock.clientHeight} of ${inLock.scrollHeight} px are seen`);
  // Beside the view all of it is seen: nobody looks for more there.
  const deck = document.querySelector(".place-deck");
  if (
    deck &&
    (page.dataset.pose === "sideways" || deck.matches('[data-pose="wide"] .lines *')) &&
    !opened &&
    !document.querySelector(".wet-lock") &&
    !(alarm && !deck.closest(".lines")) &&
    deck.scrollHeight > deck.clientHeight + 1
  )
    found.add(`of the deck only ${deck.clientHeight} of ${deck.scrollHeight} px are seen`);
  // And it reaches as far down as the place, whatever it holds: what is done stands at the same height everywhere.
  const place = document.querySelector(".place");
  if (deck && place && /sideways|wide/.test(page.dataset.pose ?? "")) {
    const left = place.getBoundingClientRect().bottom - deck.getBoundingClientRect().bottom;
    if (left > 1) found.add(`the deck ends ${Math.round(left)} px above the end of its place`);
  }
  // Upright what is done is at the thumb, below what it is about.
  const looked = document.querySelector(".place-list")?.getBoundingClientRect();
  if (
    deck &&
    shown(deck) &&
    looked &&
    page.dataset.pose === "upright" &&
    deck.getBoundingClientRect().top < looked.bottom - 1
  )
    found.add("the deck stands above the list");
  // Whatever is told, the dials stay.
  const inHand = document.querySelector(".lines .stepper");
  if (inHand && !pressed && !shown(inHand)) found.add("the dial in hand is not there");
  const foot = document.querySelector(".rod-list-foot");
  if (flows && inHand && foot && inHand.getBoundingClientRect().top > foot.getBoundingClientRect().top)
    found.add("the dial in hand stands below what is asked less often");
  const dials = document.querySelector(".lines .dials");
  if (dials && !pressed && !shown(dials)) found.add("the dials are not there");
  // But for what the person opened. Upright an alarm of what is not the rods' may have the room of one.
  const list = document.querySelector(".lines .place-list");
  if (
    list &&
    !flows &&
    !opened &&
    !(pressed && page.dataset.pose !== "upright") &&
    !document.querySelector(".rod-explained")
  ) {
    const view = list.getBoundingClientRect();
    const atLeast = alarm && page.dataset.pose === "upright" && !alarm.querySelector(".rise-do") ? 3 : 4;
    for (const face of [...document.querySelectorAll(".rod-face")].slice(0, atLeast)) {
      const below = face.getBoundingClientRect().bottom + list.scrollTop - view.bottom;
      if (below > 1) found.add(`a rod is out of sight by ${Math.round(below)} px: ${words(face)}`);
    }
  }
  if (!flows && document.querySelector(".place") && page.scrollHeight > innerHeight + 1)
    found.add(`the place is ${page.scrollHeight - innerHeight} px higher than the screen`);
  // As one page all moves on but these: from its head to its end, where the places begin, and back.
  if (flows) {
    const at = scrollY;
    const end = at + (document.querySelector(".within")?.getBoundingClientRect().bottom ?? 0) - innerHeight;
    const stay = [".overboard-button", ".told-area"];
    if (innerHeight >= 480) stay.push(".page-end > .notices:has(.alarm)");
    if (innerHeight >= 480 || innerWidth >= 600) stay.push(".mark-now", ".fish-up");
    for (const to of [0, end / 2, end]) {
      scrollTo(0, to);
      for (const one of document.querySelectorAll(stay.join(", "))) {
        // Below the head of a page on the lowest screen an alarm has room for its words.
        const seen = (innerHeight < 480 && to === 0 && one.querySelector(".alarm p")) || one;
        const { top, bottom } = seen.getBoundingClientRect();
        // What the lock makes untouchable need not be in reach.
        const touched = shown(one) && !one.closest("[inert]");
        if (touched && (top < -1 || bottom > innerHeight + 1)) found.add(`does not stay: ${words(one)}`);
      }
    }
    scrollTo(0, at);
  }
  return [...found];
}

/** Where colours and shadows are taken away, buttons and fields keep an edge, the way to help and what is pressed their own. */
export const edgeless = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const edge = (part: Element) => {
      const { borderTopStyle, borderTopWidth, borderBottomStyle, borderBottomWidth } = getComputedStyle(part);
      const width = (style: string, width: string) => (style === "none" ? 0 : Number.parseFloat(width));
      return Math.max(width(borderTopStyle, borderTopWidth), width(borderBottomStyle, borderBottomWidth));
    };
    const parts = ".button, .dial, .mark-now, .stepper, .choice span, .notice, select, textarea, .pick input";
    const strong = '.overboard-button, .overboard-bar, .notice.alarm, .button[aria-pressed="true"]';
    const ring = (part: Element) => {
      const { outlineStyle, outlineWidth } = getComputedStyle(part);
      return outlineStyle === "none" ? 0 : Number.parseFloat(outlineWidth);
    };
    return [...document.querySelectorAll(`${parts}, ${strong}`)]
      .filter((part) => part.checkVisibility() && !part.closest(".rod-more, .brief"))
      .filter((part) => {
        const seen = part.matches('[aria-pressed="true"]') ? Math.max(edge(part), ring(part)) : edge(part);
        return seen < (part.matches(strong) ? 4 : 2);
      })
      .map((part) => part.outerHTML.slice(0, 120));
  });
