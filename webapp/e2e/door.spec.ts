/** The way in over plain http, on a phone that does not know the boat, and on one that trusts its authority. */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium, expect, type Page, test } from "@playwright/test";
import { chromiumPath } from "../tools/chromium.mjs";
import { answered } from "./app";
import { pass, prepare } from "./phone";
import { type Server, startServer } from "./server";

const name = "wirewake.local";

let server: Server;
let home: string;
let context: BrowserContext;

/** A phone of its own, with its own store of certificates; on the boat's network the name is this computer. */
async function phone(options: object = {}): Promise<Page> {
  context = await chromium.launchPersistentContext(join(home, "profile"), {
    executablePath: chromiumPath,
    args: ["--no-sandbox", `--host-resolver-rules=MAP ${name} 127.0.0.1`],
    env: { ...process.env, HOME: home },
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    isMobile: true,
    ...options,
  });
  await prepare(context);
  return context.pages()[0] ?? context.newPage();
}

/** Installs the boat's certificate as a person does, with the tool of the browser's certificate store. */
function trust(certificate: Buffer): void {
  const store = join(home, ".pki/nssdb");
  mkdirSync(store, { recursive: true });
  const file = join(home, "boat.crt");
  writeFileSync(file, certificate);
  execFileSync("certutil", ["-N", "-d", `sql:${store}`, "--empty-password"]);
  execFileSync("certutil", ["-A", "-d", `sql:${store}`, "-n", name, "-t", "C,,", "-i", file]);
}

test.beforeEach(async () => {
  server = await startServer();
  home = mkdtempSync(join(tmpdir(), "wirewake-phone-"));
});
test.afterEach(async () => {
  await context.close();
  await server.stop();
  rmSync(home, { recursive: true, force: true });
});

const plain = () => `http://${name}:${server.port}/`;
const secure = () => `https://${name}:${server.port}/`;

test("a phone that does not know the boat gets its certificate, and nothing of the app", async () => {
  const page = await phone();
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

test("a phone that trusts the boat goes straight on, and keeps the app", async () => {
  test.skip(
    process.platform === "darwin",
    "a browser there asks the system's own store, which is not a test's to change",
  );
  trust(Buffer.from(await (await fetch(`http://localhost:${server.port}/boat.crt`)).arrayBuffer()));
  const page = await phone();
  await page.goto(plain());
  await page.waitForURL(`${secure()}**`);
  await answered(page);
  expect(await page.evaluate(() => isSecureContext)).toBe(true);
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  await server.stop();
  await context.setOffline(true);
  await page.reload();
  await answered(page);
});

test("the way in can be read in every light", async () => {
  const page = await phone();
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
