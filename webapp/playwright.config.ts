import { defineConfig } from "@playwright/test";
import { chromiumPath } from "./tools/chromium.mjs";

export default defineConfig({
  testDir: "e2e",
  outputDir: "test-results",
  // Two cores: one browser at a time, and a retry would only hide what is not reliable.
  workers: 1,
  retries: 0,
  timeout: 60_000,
  reporter: process.env.CI ? "line" : "list",
  use: {
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    launchOptions: { executablePath: chromiumPath, args: ["--no-sandbox"] },
  },
});
