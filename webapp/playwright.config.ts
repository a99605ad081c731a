import { defineConfig } from "@playwright/test";
import { asked, chromiumPath } from "./tools/chromium.mjs";

export default defineConfig({
  testDir: "e2e",
  outputDir: "test-results",
  // Every worker has a browser of its own, every test a server. One more than a small machine has cores: each waits a while
  // for the other side.
  workers: 3,
  fullyParallel: true,
  // A second try hides what is not reliable. Where nobody looks on it tells that from what is broken, and names it.
  retries: process.env.CI ? 1 : 0,
  // When to give up on what does not come, even on a busy machine; nothing is measured by it.
  timeout: 300_000,
  expect: { timeout: 30_000 },
  reporter: process.env.CI ? "line" : "list",
  reportSlowTests: { max: 10, threshold: 0 },
  use: {
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    // What hangs is named by the step it hangs in, not by its test alone.
    actionTimeout: 60_000,
    navigationTimeout: 60_000,
    launchOptions: { executablePath: chromiumPath, args: asked },
  },
});
