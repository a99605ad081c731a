import { answered, expect, test, watch } from "./app";
import { callItself, pass, phone } from "./phone";
import { startServer } from "./server";

test.use({ viewport: { width: 1280, height: 800 }, hasTouch: false });

test("a computer shows the code of an address that phones can reach, and the app one tap away", async ({
  page,
}) => {
  await test.step("an address that no phone can reach is not offered to scan, and the page says what to do", async () => {
    await page.goto("/");
    await expect(page.locator(".way-in .notice")).toContainText("Only this computer");
    await expect(page.getByRole("img", { name: "QR code" })).toHaveCount(0);
  });
  await test.step("a link to a place goes there at once", async () => {
    // Not a change of place in what is open already.
    await page.goto("about:blank");
    await page.goto("/#/lines");
    await answered(page);
    await expect(page.getByRole("link", { name: "Use it here" })).toHaveCount(0);
  });
  await test.step("without the server the way to the app is still there", async () => {
    await page.route("**/api/way-in", (route) => route.abort());
    await page.goto("/");
    await page.getByRole("link", { name: "Use it here" }).click();
    await answered(page);
    await page.unrouteAll();
  });
  await test.step("a computer shows the code large, and the app one tap away", async () => {
    const faults = watch(page);
    const server = await startServer("--address", "http://boat.example:8610");
    await page.goto(server.url);
    const code = page.getByRole("img", { name: "QR code for http" });
    await expect(code).toBeVisible();
    expect(await code.evaluate((img: HTMLImageElement) => img.naturalWidth)).toBeGreaterThan(0);
    const box = await code.boundingBox();
    expect(box?.width).toBeGreaterThanOrEqual(300);
    await page.getByRole("link", { name: "Use it here" }).click();
    await answered(page);
    await server.stop();
    expect(faults).toEqual([]);
  });
  await test.step("the fingerprint on the server's own page is the one to compare with", async () => {
    const server = await startServer("--address", "https://192.168.77.7:8610");
    await page.goto(server.url);
    await expect(page.getByText("Its SHA-256 fingerprint must be:")).toBeVisible();
    await expect(page.getByText("on the server’s screen")).toHaveCount(0);
    await server.stop();
  });
});

test("inside another app it is told, and sent to the phone's own browser with its invitation", async ({
  browser,
  server,
}) => {
  const agents = [
    "Mozilla/5.0 (Linux; Android 14; Phone Build/X; wv) AppleWebKit/537.36 Chrome/131.0.0.0 Mobile Safari/537.36",
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_1 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Mobile/15E148",
  ];
  const invitation = server.invite("mate");
  const page = await phone(browser, { permissions: ["clipboard-read", "clipboard-write"] });
  for (const userAgent of agents) {
    await callItself(page, userAgent);
    await page.goto("about:blank");
    await page.goto(`${server.url}/${invitation}`);
    await expect(page.getByText("This page is open inside another app.")).toBeVisible();
    const to = `${server.url.replace("http://", "")}/${invitation}`;
    if (userAgent.includes("Android")) {
      const link = page.getByRole("link", { name: "Open it there" });
      expect(await link.getAttribute("href")).toContain(`intent://${to}#Intent;scheme=http;`);
    } else {
      await pass(page, 600);
      await page.getByRole("button", { name: "Copy the address" }).click();
      await expect(page.getByRole("button", { name: "Copied" })).toBeVisible();
      expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(`http://${to}`);
    }
  }
});
