// One sheet of each palette with every screen on it, from the pictures that the browser tests leave in screens/; and one
// of each pose in each language, where they left those too.
import { mkdirSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "@playwright/test";
import { chromiumPath } from "./chromium.mjs";

const folder = join(import.meta.dirname, "../screens");
mkdirSync(folder, { recursive: true });
const sheets = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory());

const figure = (sheet, file) =>
  `<figure><img src="${pathToFileURL(join(folder, sheet, file))}"><figcaption>${file.replace(".jpg", "")}</figcaption></figure>`;

if (sheets.length > 0) {
  const browser = await chromium.launch({ executablePath: chromiumPath, args: ["--no-sandbox"] });
  const page = await browser.newPage({ viewport: { width: 1980, height: 800 } });
  for (const { name } of sheets) {
    // A page that is a file itself may show pictures that are files.
    await page.goto(pathToFileURL(folder).href);
    await page.setContent(
      `<style>body{margin:8px;background:#888;font:12px sans-serif;display:flex;flex-wrap:wrap;gap:8px}figure{margin:0}img{height:420px;max-width:480px;object-fit:contain;object-position:top left;display:block}</style>${readdirSync(
        join(folder, name),
      )
        .filter((file) => file.endsWith(".jpg"))
        .map((file) => figure(name, file))
        .join("")}`,
      { waitUntil: "load" },
    );
    await page.screenshot({
      path: join(folder, `sheet-${name.replace(/\W+/g, "-")}.jpg`),
      fullPage: true,
      type: "jpeg",
      quality: 80,
    });
  }
  await browser.close();
}
