/**
 * Day, dusk and night. The choice is in localStorage, and public/palette.js puts it on the page before
 * anything is painted; the names and grounds there and here are the same.
 */
import { signal } from "@preact/signals";

export const palettes = ["day", "dusk", "night"] as const;
export type Palette = (typeof palettes)[number];

const root = document.documentElement;

export const palette = signal<Palette>((root.dataset.palette as Palette | undefined) ?? "day");

export function setPalette(next: Palette): void {
  palette.value = next;
  root.dataset.palette = next;
  root.style.backgroundColor = "";
  const ground = getComputedStyle(root).getPropertyValue("--ground").trim();
  document.querySelector('meta[name="theme-color"]')?.setAttribute("content", ground);
  try {
    localStorage.setItem("palette", next);
  } catch {
    // Not remembered then; the palette itself works.
  }
}

export const nextPalette = (): Palette =>
  palettes[(palettes.indexOf(palette.value) + 1) % palettes.length] as Palette;
