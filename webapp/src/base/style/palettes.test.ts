import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const css = readFileSync(join(import.meta.dirname, "base.css"), "utf8");
const source = join(import.meta.dirname, "../..");
const styles = readdirSync(source, { recursive: true, encoding: "utf8" })
  .filter((file) => file.endsWith(".css"))
  .map((file) => readFileSync(join(source, file), "utf8"));
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

/**
 * The app asks 7 : 1 (WCAG 2.2, 1.4.6). Pure red, all that night may use, has a relative luminance of 0.2126, so that the
 * most it can have on black is (0.2126 + 0.05) / 0.05 = 5.25 : 1. There night asks 4.5 : 1 (1.4.3).
 */
const least = { day: 7, dusk: 7, night: 4.5 } as const;

describe.each(Object.entries(palettes) as [keyof typeof palettes, { [name: string]: string }][])(
  "%s",
  (name, c) => {
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
    ])(`%s on %s is at least ${least[name]} : 1`, (text, under) => {
      expect(contrast(c[text] as string, c[under] as string)).toBeGreaterThanOrEqual(least[name]);
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
  },
);

/** Where nothing else is set, words are ink on one of these. */
const grounds = ["ground", "panel"];
const rules = styles.flatMap((sheet) =>
  [...sheet.matchAll(/([^{}]+)\{([^{}]*)\}/g)].map(([, selector = "", body = ""]) => ({
    selector: selector.replace(/\/\*[\s\S]*?\*\//g, "").trim(),
    colour: /(?:^|;|\s)color:\s*var\(--([\w-]+)\)/.exec(body)?.[1],
    background: /background(?:-color)?:\s*var\(--([\w-]+)\)/.exec(body)?.[1],
  })),
);
/** Filled shapes without words in them. */
const wordless = /odds-bar span|thumb|photo-frame|qr-frame|day-swatch/;

describe.each(Object.keys(palettes) as (keyof typeof palettes)[])(
  "every state of every control in %s",
  (name) => {
    const states = rules.filter((rule) => (rule.colour || rule.background) && !wordless.test(rule.selector));

    it("finds the states", () => {
      for (const selector of [
        ".button:active",
        ".pad.down",
        ".mark-now",
        ".notice.alarm",
        ".button:disabled",
      ]) {
        expect(states.map((state) => state.selector).join("\n")).toContain(selector);
      }
    });

    it.each(states)("$selector", ({ colour, background }) => {
      const c = palettes[name];
      for (const under of background ? [background] : colour === "ground" ? ["ink"] : grounds) {
        if (colour === "on-alarm" && !background) continue;
        const text = colour ?? (grounds.includes(under) ? "ink" : undefined);
        if (!text || !c[text] || !c[under]) throw new Error(`set color beside background: ${under}`);
        expect(contrast(c[text] as string, c[under] as string)).toBeGreaterThanOrEqual(least[name]);
      }
    });
  },
);

describe("night", () => {
  const all = Object.entries(palettes.night);

  it.each(all)("%s is of a screen's red alone, which is light of 611 nm", (_, hex) => {
    // IEC 61966-2-1: red primary at x 0.64, y 0.33; its dominant wavelength seen from D65 is 611 nm (from memory).
    expect(hex).toMatch(/^#[0-9a-f]{2}0000$/);
  });

  it.each(all)("%s is dim by itself: at most a quarter of what the ground of the day gives", (_, hex) => {
    expect(luminance(hex)).toBeLessThanOrEqual(luminance(palettes.day.ground as string) / 4);
  });

  it("has grounds that are next to black", () => {
    for (const ground of ["ground", "panel", "water", "wanted", "ground-fill"])
      expect(luminance(palettes.night[ground] as string)).toBeLessThan(0.005);
  });
});
