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
