import { defineConfig } from "@playwright/test";
import common from "../playwright.config";
import { type Choice, engines } from "./engines";

/** The same runner; the browser that it starts by itself is the Chromium that the other engines meet. */
export default defineConfig<Choice>(common, {
  testDir: ".",
  outputDir: "../test-results-engines",
  projects: Object.keys(engines).map((name) => ({ name, use: { engine: name } })),
});
