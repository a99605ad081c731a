import { answered, expect, test, watch } from "./app";
import { startServer } from "./server";

test.use({ viewport: { width: 1280, height: 800 }, hasTouch: false });

test("a computer shows the code large, and the app one tap away", async ({ page }) => {
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

test("an address that no phone can reach is not offered to scan, and the page says what to do", async ({
  page,
}) => {
  await page.goto("/");
  await expect(page.locator(".way-in .notice")).toContainText("Only this computer");
  await expect(page.getByRole("img", { name: "QR code" })).toHaveCount(0);
});

test("a link to a place goes there at once", async ({ page }) => {
  await page.goto("/#/lines");
  await answered(page);
  await expect(page.getByRole("link", { name: "Use it here" })).toHaveCount(0);
});

test("without the server the way to the app is still there", async ({ page }) => {
  await page.route("**/api/way-in", (route) => route.abort());
  await page.goto("/");
  await page.getByRole("link", { name: "Use it here" }).click();
  await answered(page);
});
