/** The way in over plain http, on a phone that does not know the boat, and on one that trusts its authority. */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { type BrowserContext, expect, type Page, test } from "@playwright/test";
import { answered } from "./app";
import { boatName, NetPhone } from "./boatnet";
import { callItself, pass, reload } from "./phone";
import { type Server, startServer } from "./server";

let server: Server;
let it: NetPhone;
let context: BrowserContext;

async function phone(): Promise<Page> {
  context = await it.open();
  return context.pages()[0] ?? context.newPage();
}

test.beforeEach(async () => {
  server = await startServer();
  it = new NetPhone();
});
test.afterEach(async () => {
  await it.close();
  await server.stop();
});

const plain = () => `http://${boatName}:${server.port}/`;
const secure = () => `https://${boatName}:${server.port}/`;

const firefox = "Mozilla/5.0 (Android 14; Mobile; rv:130.0) Gecko/130.0 Firefox/130.0";
const inside =
  "Mozilla/5.0 (Linux; Android 14; Phone Build/X; wv) AppleWebKit/537.36 Chrome/131.0.0.0 Mobile Safari/537.36";

test("a phone that does not know the boat is led in by a page that can be read in every light and browser", async () => {
  const page = await phone();
  const own = await page.evaluate(() => navigator.userAgent);
  await test.step("it gets the boat's certificate, and nothing of the app", async () => {
    const asked: string[] = [];
    page.on("request", (request) => asked.push(new URL(request.url()).pathname));
    await page.goto(plain());
    const get = page.getByRole("link", { name: "Get the certificate" });
    await page.getByRole("radio", { name: "Android" }).check();
    await expect(get).toBeVisible();
    const [download] = await Promise.all([page.waitForEvent("download"), get.click()]);
    expect(download.suggestedFilename()).toBe("wirewake-wirewake.crt");
    const certificate = readFileSync(await download.path());
    const fingerprint = createHash("sha256").update(certificate).digest("hex").toUpperCase();
    expect((await page.locator(".fingerprint").innerText()).replaceAll(/\s/g, "")).toBe(fingerprint);
    expect(asked.filter((path) => /wasm|sw\.js|manifest/.test(path))).toEqual([]);

    // What is told beside the warning opens the app, not this page once more.
    await expect(
      page.locator("h2", { hasText: "rather not" }).locator("~ .address .address-text"),
    ).toHaveText(secure());

    // Nothing was installed yet.
    await pass(page, 600);
    await page.getByRole("button", { name: "Look again" }).click();
    await expect(get).toBeVisible();

    await page.getByRole("radio", { name: "iPhone" }).check();
    await expect(page.getByRole("link", { name: "Get the profile" })).toBeVisible();
    const profile = await page.request.get(`http://localhost:${server.port}/boat.mobileconfig`);
    expect(profile.headers()["content-type"]).toBe("application/x-apple-aspen-config");

    // The browser itself refuses the app's address until then.
    const opened = await page.goto(secure()).catch((error: Error) => error.message);
    expect(opened).toContain("ERR_CERT_AUTHORITY_INVALID");
  });
  await test.step("where the browser itself is in the way, the page says so and hands its address on", async () => {
    await callItself(page, firefox);
    await page.goto(plain());
    const told = page.locator(".notice").filter({ hasText: "This looks like Firefox" });
    await expect(told).toContainText("Use third party CA certificates");
    await expect(told.locator(".address-text")).toHaveText(plain().slice(0, -1));
    await pass(page, 600);
    await told.getByRole("button", { name: "Copy the address" }).click();
    await expect(told.getByRole("button", { name: "Copied" })).toBeVisible();
    // What was copied can be pasted, also on a page that came by plain http.
    await page.evaluate(() => {
      const field = document.body.appendChild(document.createElement("input"));
      field.id = "paste";
      field.focus();
    });
    await page.keyboard.press("Control+V");
    await expect(page.locator("#paste")).toHaveValue(plain().slice(0, -1));
    await callItself(page, inside);
    await page.goto(plain());
    await expect(page.getByText("This page is open inside another app.")).toBeVisible();
    expect(await page.getByRole("link", { name: "Open it there" }).getAttribute("href")).toContain(
      `intent://${boatName}:${server.port}/#Intent;scheme=http;`,
    );
  });
  await test.step("the way in can be read in every light", async () => {
    await callItself(page, own);
    for (const palette of ["day", "dusk", "night"]) {
      await page.addInitScript((chosen) => localStorage.setItem("palette", chosen), palette);
      for (const [width, height] of [
        [360, 740],
        [1280, 800],
      ] as const) {
        await page.setViewportSize({ width, height });
        await page.goto(plain());
        await expect(page.locator(".door-steps")).toBeVisible();
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
        await page.screenshot({ path: `screens/door-${palette}-${width}.png`, fullPage: true });
      }
    }
  });
});

test("a phone that trusts the boat goes straight on, and keeps the app", async () => {
  test.skip(
    process.platform === "darwin",
    "a browser there asks the system's own store, which is not a test's to change",
  );
  await it.trust(server.port);
  const page = await phone();
  await page.goto(plain());
  await page.waitForURL(`${secure()}#/enrol`);
  await expect(page.getByRole("button", { name: "Ask the skipper" })).toBeVisible();
  await page.goto(`${secure()}#/lines`);
  await answered(page);
  expect(await page.evaluate(() => isSecureContext)).toBe(true);
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  await server.stop();
  await context.setOffline(true);
  await reload(page);
  await answered(page);
});
