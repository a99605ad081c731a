/** The season read, with no signal: what is there is found, and nothing that is not. */
import { expect, type Page, test, watch } from "./app";
import { demo, demoSeason, type Truth } from "./demo-season";
import { calm } from "./notes";

async function read(page: Page, truth: Truth): Promise<void> {
  await page.goto("/#/notes/past");
  await calm(page);
  await page.locator('input[type="file"]').setInputFiles({
    name: "demo.wirewake.json",
    mimeType: "application/json",
    buffer: Buffer.from(demoSeason(truth)),
  });
  await expect(page.getByText(/\d notes came in/)).toBeVisible();
  await page.context().setOffline(true);
  await calm(page);
  await page.getByRole("link", { name: "What brought fish" }).click();
  await expect(page.getByRole("heading", { name: "What brought fish" })).toBeVisible();
  await expect(page.getByText(/\d strikes, \d+ at different times/)).toBeVisible();
}

test("the spoon that brought more is named, and nothing else", async ({ page }) => {
  const faults = watch(page);
  await read(page, demo);
  await expect(page.getByText(/Likely better so far: Spoon: Demo spoon A/)).toBeVisible();
  await expect(page.getByText(/Likely better so far/)).toHaveCount(1);
  await expect(page.getByRole("img", { name: /^Demo spoon A: / })).toBeVisible();
  await page.getByRole("combobox", { name: "Together with" }).selectOption({ label: "Line out" });
  await expect(page.getByText(/Demo spoon A · /).first()).toBeVisible();
  expect(faults).toEqual([]);
});

test("of a season in which nothing mattered nothing is named", async ({ page }) => {
  await read(page, { ...demo, spoon: 1, dawn: 1, rate: 0.9 });
  await expect(page.getByText(/Nothing stands out so far/)).toBeVisible();
  await expect(page.getByText(/Likely better so far/)).toHaveCount(0);
});

test("of a short season there are counts, and how many more are wanted", async ({ page }) => {
  await read(page, { ...demo, trips: 3 });
  await expect(page.getByText(/Too early to say: \d+ more are wanted/)).toBeVisible();
  await expect(page.getByText(/likely better/i)).toHaveCount(0);
});
