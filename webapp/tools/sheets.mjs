// A sheet of each palette and of each pose in each language with every screen on it, from the pictures that the browser tests
// leave in screens/. All of one sheet are drawn to one scale; what is longer than its screen goes on in strips beside it.
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "@playwright/test";
import { chromiumPath } from "./chromium.mjs";

const folder = join(import.meta.dirname, "../screens");
/** CSS pixels: no picture is drawn wider, no strip shows more, and after so many strips a page has said what it is. */
const [widest, strip, most] = [330, 840, 3];
/** The browser draws no page that is higher. */
const highest = 16_000;

const browser = await chromium.launch({ executablePath: chromiumPath, args: ["--no-sandbox"] });
const page = await browser.newPage({ viewport: { width: 4400, height: 800 } });
for (const { name } of readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory())) {
  // A page that is a file itself may show pictures that are files.
  await page.goto(pathToFileURL(folder).href);
  const pictures = readdirSync(join(folder, name)).filter((file) => file.endsWith(".jpg"));
  await page.setContent(
    `<style>body{margin:8px;background:#888;font:14px sans-serif;display:flex;flex-wrap:wrap;align-items:start;gap:8px}</style>${pictures
      .map(
        (file) => `<img alt="${file.replace(".jpg", "")}" src="${pathToFileURL(join(folder, name, file))}">`,
      )
      .join("")}`,
    { waitUntil: "load" },
  );
  const height = await page.evaluate(
    ({ widest, strip, most }) => {
      for (const picture of [...document.images]) {
        const scale = Math.min(0.6, widest / picture.naturalWidth);
        const all = Math.ceil(picture.naturalHeight / strip);
        for (let i = 0; i < Math.min(all, most); i++) {
          const figure = document.createElement("div");
          const part = document.createElement("div");
          const high = Math.min(strip, picture.naturalHeight - i * strip) * scale;
          part.style.cssText = `width:${picture.naturalWidth * scale}px;height:${high}px;background:url("${picture.src}") 0 ${-i * strip * scale}px / 100% auto`;
          figure.append(part, i === 0 ? picture.alt : i === most - 1 && all > most ? "and more" : "");
          picture.before(figure);
        }
        picture.remove();
      }
      return document.documentElement.scrollHeight;
    },
    { widest, strip, most },
  );
  if (height > highest) throw new Error(`${name}: a sheet of ${height} px is not drawn whole`);
  await page.screenshot({
    path: join(folder, `sheet-${name.replace(/\W+/g, "-")}.jpg`),
    fullPage: true,
    type: "jpeg",
    quality: 80,
  });
}
await browser.close();
