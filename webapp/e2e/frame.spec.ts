/** What holds in every place: told apart without colours of the app's own, worked by keys, and dim and red at night. */
import { failCalculating } from "./alarms";
import { expect, type Page, test } from "./app";
import { light } from "./light";
import { calm } from "./notes";
import { pass } from "./phone";
import { forced } from "./poses";

const places = ["lines", "pace", "notes", "fish", "crew"];

/** What a person sees of the edge of a part where the app's colours and shadows are taken away. */
const edge = (page: Page, selector: string) =>
  page
    .locator(selector)
    .first()
    .evaluate((part) => {
      const { outlineWidth, outlineStyle, borderTopWidth, borderTopStyle, fontWeight } =
        getComputedStyle(part);
      const outline = outlineStyle === "none" ? "0px" : outlineWidth;
      const border = borderTopStyle === "none" ? "0px" : borderTopWidth;
      return { outline, border, fontWeight };
    });

/** In a palette, without the ground that is put there before the first paint. */
async function lightIn(page: Page, palette: string): Promise<{ mean: number; most: number; other: number }> {
  await page.evaluate((palette) => {
    document.documentElement.dataset.palette = palette;
    document.documentElement.style.backgroundColor = "";
  }, palette);
  return light(page);
}

test("what holds in every place", async ({ lines: page }) => {
  await test.step("with forced colours, what is chosen and where one is are told apart", async () => {
    await page.emulateMedia(forced);
    for (const [chosen, other] of [
      [".rod.selected", ".rod:not(.selected)"],
      ['.dial[aria-pressed="true"]', '.dial[aria-pressed="false"]'],
      ['.bar a[aria-current="page"]', ".bar a:not([aria-current])"],
    ] as const) {
      expect(await edge(page, chosen), chosen).not.toEqual(await edge(page, other));
    }
    await page.emulateMedia({ forcedColors: null });
  });

  await test.step("Mark and Fish up are one tap away in every place", async () => {
    for (const place of places) {
      await page.goto(`/#/${place}`);
      for (const name of ["Mark", "Fish up"])
        await expect(page.getByRole("button", { name, exact: true })).toBeInViewport({ ratio: 1 });
    }
  });

  await test.step("by keys, one goes on from the number typed, and from the link that led away", async () => {
    await page.goto("/#/lines");
    const number = page.getByRole("group", { name: "Line out" }).locator("button.stepper-value");
    for (const key of ["Enter", "Escape"]) {
      await number.focus();
      await page.keyboard.press("Enter");
      await page.keyboard.type("200");
      await page.keyboard.press(key);
      await expect(number).toBeFocused();
      await pass(page, 600);
    }

    const more = page.locator(".rod-more a").first();
    await more.focus();
    await page.keyboard.press("Enter");
    await expect(page.getByRole("heading", { level: 1 })).toBeFocused();
    const card = page.getByRole("link", { name: "Depth card" });
    await card.focus();
    await page.keyboard.press("Enter");
    await expect(page.getByRole("heading", { level: 1, name: /Depth card/ })).toBeFocused();
    await page.getByRole("link", { name: "Back" }).focus();
    await page.keyboard.press("Enter");
    await expect(card).toBeFocused();
    await page.getByRole("link", { name: "Back" }).focus();
    await page.keyboard.press("Enter");
    await expect(more).toBeFocused();
  });

  await test.step("at night every place gives red light alone, and little of it", async () => {
    for (const place of places) {
      await page.goto(`/#/${place}`);
      await calm(page);
      const [day, night] = [await lightIn(page, "day"), await lightIn(page, "night")];
      expect(night.other, place).toBe(0);
      expect(night.most, place).toBeLessThanOrEqual(0.2127);
      expect(night.mean, place).toBeLessThan(day.mean / 12);
    }
    await page.evaluate(() => {
      document.documentElement.dataset.palette = "day";
    });
  });

  await test.step("what was opened closes when the place changes, and an alarm stands above all else that is told", async () => {
    await page.goto("/#/lines");
    await calm(page);
    const more = page.locator(".stepper").getByRole("button", { name: "more" });
    const letAnswer = await failCalculating(page, 1);
    await more.click();
    const waiting = page.locator(".waiting");
    await expect(waiting).toBeVisible();
    await calm(page);
    await waiting.click();
    await expect(page.getByText("The calculator stopped and was started again")).toBeVisible();
    await page.getByRole("link", { name: "Pace" }).click();
    await expect(waiting).toHaveAttribute("aria-expanded", "false");
    await expect(page.getByText("The calculator stopped and was started again")).toHaveCount(0);
    await letAnswer();

    await page.getByRole("link", { name: "Lines" }).click();
    await calm(page);
    await failCalculating(page, Number.POSITIVE_INFINITY);
    await more.click();
    const alarm = page.locator(".told-area .notice.alarm");
    await expect(alarm).toContainText("The calculator does not start");
    await calm(page);
    // Lines' own caution is one line beside it, where there is room for that.
    await expect(waiting).toBeHidden();
    await page.setViewportSize({ width: 412, height: 915 });
    await expect(waiting).toBeVisible();
    await expect(waiting).toContainText("First steps");
    const tops = await page.locator(".told-area :is(.notice, .waiting)").evaluateAll((all) =>
      all
        .map((one) => ({ alarm: one.matches(".alarm"), top: one.getBoundingClientRect().top }))
        .sort((a, b) => a.top - b.top)
        .map((one) => one.alarm),
    );
    expect(tops.length).toBeGreaterThan(1);
    expect(tops.lastIndexOf(true)).toBe(tops.filter(Boolean).length - 1);
    await expect(alarm).toBeInViewport({ ratio: 1 });
  });
});

for (const [language, written, inText] of [
  ["es-ES", "3,3", "1 + 0,1 T"],
  ["es-MX", "3.3", "1 + 0.1 T"],
] as const) {
  test.describe(`on a phone in ${language}`, () => {
    test.use({ locale: language });
    test(`a speed reads ${written}`, async ({ lines: page }) => {
      await expect(page.locator(".dial", { hasText: "Veloc." })).toContainText(written);
      await expect(page.locator(".bar")).toContainText("Tripulación");
      await page.goto("/#/fish/keeping");
      await expect(page.getByText(inText)).toBeVisible();
    });
  });
}
