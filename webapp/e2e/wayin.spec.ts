import { answered, expect, test, watch } from "./app";

test.use({ viewport: { width: 1280, height: 800 }, hasTouch: false });

test("a computer shows the code large, and the app one tap away", async ({ page }) => {
  const faults = watch(page);
  await page.goto("/");
  const code = page.getByRole("img", { name: "QR code for http" });
  await expect(code).toBeVisible();
  expect(await code.evaluate((img: HTMLImageElement) => img.naturalWidth)).toBeGreaterThan(0);
  const box = await code.boundingBox();
  expect(box?.width).toBeGreaterThanOrEqual(300);
  await page.getByRole("link", { name: "Use it here" }).click();
  await answered(page);
  expect(faults).toEqual([]);
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
