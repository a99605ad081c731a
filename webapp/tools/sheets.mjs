// One sheet of each palette with every screen on it, from the pictures that the browser tests leave in screens/.
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "@playwright/test";
import { chromiumPath } from "./chromium.mjs";

const folder = join(import.meta.dirname, "../screens");
const palettes = ["day", "dusk", "night"].filter((palette) => existsSync(join(folder, palette)));

const figure = (palette, file) =>
  `<figure><img src="${pathToFileURL(join(folder, palette, file))}"><figcaption>${file.replace(".jpg", "")}</figcaption></figure>`;

if (palettes.length > 0) {
  const browser = await chromium.launch({ executablePath: chromiumPath, args: ["--no-sandbox"] });
  const page = await browser.newPage({ viewport: { width: 1980, height: 800 } });
  for (const palette of palettes) {
    // A page that is a file itself may show pictures that are files.
    await page.goto(pathToFileURL(folder).href);
    await page.setContent(
      `<style>body{margin:8px;background:#888;font:12px sans-serif;display:flex;flex-wrap:wrap;gap:8px}figure{margin:0}img{height:300px;display:block}</style>${readdirSync(
        join(folder, palette),
      )
        .filter((file) => file.endsWith(".jpg"))
        .map((file) => figure(palette, file))
        .join("")}`,
      { waitUntil: "load" },
    );
    await page.screenshot({
      path: join(folder, `sheet-${palette}.jpg`),
      fullPage: true,
      type: "jpeg",
      quality: 80,
    });
  }
  await browser.close();
}
