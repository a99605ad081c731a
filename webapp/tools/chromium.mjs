// The browser that tests and figures run in: $CHROMIUM, or the first of those that is there. The one without windows
// is the same engine and takes a third less time, as nothing is drawn around the page.
import { existsSync } from "node:fs";

const usual = [
  "/usr/bin/chromium-headless-shell",
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];

export const chromiumPath = process.env.CHROMIUM ?? usual.find(existsSync) ?? usual[0];

// What the tests ask of it. Each begins with nothing kept, compiles the calculations and wants few of them: to compile them a
// second time, so that they are quicker, costs more than they take. And each phone of a test gets one process for its pages,
// none that is begun beside it in case another site is visited next: nobody ever does.
export const asked = [
  "--no-sandbox",
  "--js-flags=--wasm-tiering-budget=200000000",
  "--renderer-process-limit=1",
];
