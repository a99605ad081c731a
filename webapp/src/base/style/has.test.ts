/**
 * Where a rule asks by :has() what stands in a box, and then goes on to what else is in it, browsers look at all of that anew
 * with whatever is added: at nearly nothing if it must be of a class, at all of the page if it may be anything.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";

const src = join(import.meta.dirname, "../..");
const sheets = readdirSync(src, { recursive: true, encoding: "utf8" }).filter((name) =>
  name.endsWith(".css"),
);

/** Cut where it is not in brackets. */
function parted(text: string, at: RegExp): string[] {
  const parts = [""];
  let depth = 0;
  for (const sign of text) {
    depth += "([".includes(sign) ? 1 : ")]".includes(sign) ? -1 : 0;
    if (depth === 0 && at.test(sign)) parts.push("");
    else parts[parts.length - 1] += sign;
  }
  return parts.map((part) => part.trim()).filter(Boolean);
}

const selectors = (css: string): string[] =>
  [...css.replace(/\/\*.*?\*\//gs, "").matchAll(/([^{};]+)\{/g)].flatMap(([, head = ""]) =>
    head.trim().startsWith("@") ? [] : parted(head, /,/),
  );

/** Buttons are the least part of what a page holds. */
const isNamed = (last: string): boolean => /^(\w*[.[]|:is\(\.|button$)/.test(last);

const tooWide = (css: string): string[] =>
  selectors(css).filter((selector) => {
    const all = parted(selector, /[\s>+~]/);
    return all.slice(0, -1).some((one) => one.includes(":has(")) && !isNamed(all.at(-1) ?? "");
  });

test("what is added to a page has little of it styled anew", () => {
  expect(tooWide(".a:has(.b) > * {}")).toEqual([".a:has(.b) > *"]);
  expect(tooWide("@media print { body:has(.b) :not(.c, .c *), .d { } }")).toEqual([
    "body:has(.b) :not(.c, .c *)",
  ]);
  expect(tooWide(".a:has(.b) span { } .a:has(* + .b) .c, .a > :has(.b) { }")).toEqual([".a:has(.b) span"]);
  for (const sheet of sheets) expect(tooWide(readFileSync(join(src, sheet), "utf8")), sheet).toEqual([]);
  expect(sheets.length).toBeGreaterThan(10);
});
