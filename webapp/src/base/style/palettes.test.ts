import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const css = readFileSync(join(import.meta.dirname, "base.css"), "utf8");
const script = readFileSync(join(import.meta.dirname, "../../../public/palette.js"), "utf8");

function colours(block: string): { [name: string]: string } {
  return Object.fromEntries([...block.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1], m[2]]));
}

const blockOf = (selector: string) => css.slice(css.indexOf(selector)).split("}")[0] as string;
const palettes = {
  day: colours(blockOf(":root {")),
  dusk: colours(blockOf(':root[data-palette="dusk"]')),
  night: colours(blockOf(':root[data-palette="night"]')),
};

const channels = (hex: string) => [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255);

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
function luminance(hex: string): number {
  const [r, g, b] = channels(hex).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * (r as number) + 0.7152 * (g as number) + 0.0722 * (b as number);
}

function contrast(one: string, other: string): number {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

it("contrast is computed as published: black on white 21, #777777 on white 4.48", () => {
  // WCAG 2.2, definition of contrast ratio; #777777 is the usual example that just fails 4.5.
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 6);
  expect(contrast("#777777", "#ffffff")).toBeCloseTo(4.48, 2);
});

describe.each(Object.entries(palettes))("%s", (name, c) => {
  it.each([
    ["ink", "ground"],
    ["ink", "panel"],
    ["ink", "water"],
    ["ink", "wanted"],
    ["ink", "ground-fill"],
    ["soft", "ground"],
    ["soft", "panel"],
    ["good", "ground"],
    ["good", "panel"],
    ["off", "ground"],
    ["off", "panel"],
    ["on-alarm", "alarm"],
  ])("%s on %s is at least 7 : 1", (text, under) => {
    expect(contrast(c[text] as string, c[under] as string)).toBeGreaterThanOrEqual(7);
  });

  it.each([
    ["rule", "ground"],
    ["rule", "panel"],
    ["good", "water"],
    ["ink", "water"],
  ])("the edge %s on %s is at least 3 : 1 (WCAG 1.4.11)", (edge, under) => {
    expect(contrast(c[edge] as string, c[under] as string)).toBeGreaterThanOrEqual(3);
  });

  it("begins on the ground that is put there before the first paint", () => {
    expect(script).toContain(`${name}: "${c.ground}"`);
  });
});

it("night has no white and no blue: red leads, blue is least", () => {
  for (const hex of Object.values(palettes.night)) {
    const [r, g, b] = channels(hex) as [number, number, number];
    expect(g).toBeLessThanOrEqual(r / 2);
    expect(b).toBeLessThanOrEqual(g);
  }
});
