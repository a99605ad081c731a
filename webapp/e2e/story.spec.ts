/** The whole story: scanned at the dock, out of signal, changed at sea, restarted, still there. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium, expect, type Page, test } from "@playwright/test";
import { asked, chromiumPath } from "../tools/chromium.mjs";
import { answered, depthOf, dial, settled, shownIn, step, type } from "./app";
import { prepare, reload, small } from "./phone";
import { startServer } from "./server";

const phone = async (profile: string): Promise<BrowserContext> =>
  prepare(
    await chromium.launchPersistentContext(profile, {
      executablePath: chromiumPath,
      args: asked,
      ...small,
      isMobile: true,
    }),
  );

const inControl = (page: Page) =>
  page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");

test("load, lose the server and the network, reload, change, restart the browser: all still there", async () => {
  const profile = mkdtempSync(join(tmpdir(), "wirewake-phone-"));
  const server = await startServer();
  let context = await phone(profile);
  try {
    let page = context.pages()[0] ?? (await context.newPage());
    await page.goto(server.url);
    await answered(page);
    await inControl(page);
    await settled(page);
    const atTheDock = await page.locator(".rods").innerText();

    await server.stop();
    await context.setOffline(true);
    await reload(page);
    await answered(page);
    await settled(page);
    expect(await page.locator(".rods").innerText()).toBe(atTheDock);

    const before = await depthOf(page);
    await type(await dial(page, "Line out"), "150");
    await settled(page);
    const lessLine = await depthOf(page);
    expect(lessLine).toBeLessThan(before);

    await step(await dial(page, "Speed"), "more", 5);
    await settled(page);
    const faster = await depthOf(page);
    expect(faster).toBeLessThan(lessLine);

    await step(await dial(page, "Drail"), "more", 2);
    await settled(page);
    const heavier = await depthOf(page);
    expect(heavier).toBeGreaterThan(faster);
    const atSea = await page.locator(".rods").innerText();

    await context.close();
    context = await phone(profile);
    await context.setOffline(true);
    page = context.pages()[0] ?? (await context.newPage());
    await page.goto(server.url);
    await answered(page);
    await settled(page);
    expect(await page.locator(".rods").innerText()).toBe(atSea);
    expect(await shownIn(await dial(page, "Line out"))).toContain("150");
  } finally {
    await context.close();
    await server.stop();
    rmSync(profile, { recursive: true, force: true });
  }
});
