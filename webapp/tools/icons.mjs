// Draws the PNG icons from public/icons/icon.svg with Chromium. Run after the drawing has changed.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "@playwright/test";
import { chromiumPath } from "./chromium.mjs";

const folder = join(import.meta.dirname, "../public/icons");
const svg = readFileSync(join(folder, "icon.svg"), "utf8");
// Maskable and Apple's icons are cut by the phone: square ground, and the drawing in the safe middle.
const square = svg.replace('rx="88"', "");
const drawings = [
  { file: "icon-192.png", size: 192, svg, scale: 1 },
  { file: "icon-512.png", size: 512, svg, scale: 1 },
  { file: "icon-180.png", size: 180, svg: square, scale: 0.9 },
  { file: "maskable-512.png", size: 512, svg: square, scale: 0.76 },
];

const browser = await chromium.launch({ executablePath: chromiumPath, args: ["--no-sandbox"] });
for (const { file, size, svg, scale } of drawings) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const drawn = svg.replace("<svg ", `<svg width="${size * scale}" height="${size * scale}" `);
  const ground = scale < 1 ? "#0d1c22" : "transparent";
  await page.setContent(
    `<body style="margin:0;height:100vh;display:grid;place-items:center;background:${ground}">${drawn}`,
  );
  await page.screenshot({ path: join(folder, file), omitBackground: true });
  await page.close();
}
await browser.close();
