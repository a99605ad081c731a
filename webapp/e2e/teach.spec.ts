/** What the skipper knows already is taught by a form, read by the phone's tilt, and told whether it was right. */
import { answered, dial, expect, follow, type Page, rod, settled, test, type } from "./app";
import { calm } from "./notes";
import { pass, reload } from "./phone";

const depth = async (page: Page) => {
  const said = await rod(page, 1).locator(".readout").innerText();
  const [, mid = "", half = ""] = /([\d.]+)\s*±\s*([\d.]+)/.exec(said) ?? [];
  return { mid: Number(mid), half: Number(half) };
};

/** Common practice, no source: 300 ft of wire at 3.3 kn, bare and with drails. */
const facts = [
  { drail: 0, ticks: 30 },
  { drail: 4, ticks: 35 },
  { drail: 8, ticks: 40 },
];

async function teachFacts(page: Page): Promise<void> {
  await page.goto("/#/lines/teach");
  await calm(page);
  await type(page.getByRole("group", { name: "Line out" }), "300");
  await type(page.getByRole("group", { name: "Speed through the water" }), "3.3");
  await page.getByRole("radio", { name: "Sure", exact: true }).check({ force: true });
  for (const { drail, ticks } of facts) {
    await type(page.getByRole("group", { name: "Drail" }), String(drail));
    await type(page.getByRole("group", { name: "Just ticks in" }), String(ticks));
    await calm(page);
    await page.getByRole("button", { name: "Teach it this" }).click();
    await expect(page.getByText(`ticks in ${ticks}`, { exact: false }).first()).toBeVisible();
  }
}

/** Gravity as a phone tells it whose long edge points so far below level, swinging by so much. */
const tilt = (page: Page, degrees: number, swing: number) =>
  page.evaluate(
    ([angle = 0, by = 0]) => {
      for (let i = 0; i < 100; i++) {
        const a = ((angle + by * Math.sin(i)) * Math.PI) / 180;
        const event = new Event("devicemotion");
        Object.assign(event, {
          accelerationIncludingGravity: { x: 0, y: 9.81 * Math.sin(a), z: 9.81 * Math.cos(a) },
        });
        dispatchEvent(event);
      }
    },
    [degrees, swing],
  );

test("what a skipper knows of his lines is taught by a form or the phone's tilt", async ({ lines: page }) => {
  await test.step("what a skipper has in his head is taught in a minute, and he sees the depths he knows", async () => {
    await type(await dial(page, "Line out"), "300");
    await type(await dial(page, "Speed"), "3.3");
    await type(await dial(page, "Bottom"), "60");
    await settled(page);
    const before = await depth(page);
    await page.getByRole("link", { name: "Teach it what you know" }).click();
    await teachFacts(page);
    for (const { drail, ticks } of facts) {
      await page.goto("/#/lines");
      await calm(page);
      await type(await dial(page, "Drail"), String(drail));
      await settled(page);
      const now = await depth(page);
      expect(Math.abs(now.mid - ticks)).toBeLessThanOrEqual(3);
      expect(now.half).toBeLessThan(before.half);
    }
    // The fourth is of a three-way, which is a rig of its own: 20 oz just touch in 60 ft.
    await page.goto("/#/gear/rigs");
    await calm(page);
    await page.getByRole("button", { name: "Add one like the last" }).click();
    await calm(page);
    await page.getByRole("radio", { name: "Yes", exact: true }).check({ force: true });
    await page.goto("/#/lines/teach");
    await calm(page);
    const rigs = page.getByRole("combobox", { name: "Rig" });
    const threeWay = await rigs.locator("option", { hasText: /three-way/i }).textContent();
    await rigs.selectOption({ label: threeWay ?? "" });
    await type(page.getByRole("group", { name: "Line out" }), "300");
    await type(page.getByRole("group", { name: "Sinker" }), "20");
    // A phone that starts anew goes on where it was.
    await reload(page);
    await expect(page.getByRole("group", { name: "Sinker" })).toContainText("20");
    await expect(page.getByRole("group", { name: "Line out" })).toContainText("300");
    await calm(page);
    await type(page.getByRole("group", { name: "Drail" }), "0");
    await type(page.getByRole("group", { name: "Just ticks in" }), "60");
    await calm(page);
    await page.getByRole("button", { name: "Teach it this" }).click();
    await expect(page.locator(".taught").first()).toContainText(/ticks in 60.*three-way 20\soz/);
    await expect(page.locator(".taught", { hasText: "Agrees" })).toHaveCount(4);
    await page.goto("/#/lines");
    await calm(page);
    await follow(page, "More");
    await follow(page, "Place and rig");
    await rigs.selectOption({ label: threeWay ?? "" });
    await page.goto("/#/lines");
    await calm(page);
    await type(await dial(page, "Drail"), "0");
    await type(await dial(page, "Sinker"), "20");
    await settled(page);
    // The spoon rides a few feet above the sinker that touches.
    const hung = await depth(page);
    expect(60 - hung.mid).toBeGreaterThan(0);
    expect(60 - hung.mid).toBeLessThanOrEqual(6);
    expect(hung.half).toBeLessThan(before.half);
    // It is kept, and struck out with one tap that can be taken back.
    await reload(page);
    await answered(page);
    await page.goto("/#/lines/teach");
    await expect(page.locator(".taught")).toHaveCount(4);
    await calm(page);
    await page.locator(".taught").first().getByRole("button").click();
    await expect(page.locator(".taught")).toHaveCount(3);
    await calm(page);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.locator(".taught")).toHaveCount(4);
  });

  await test.step("the phone held along the wire reads its angle, and refuses when it swings too much", async () => {
    // A browser without windows asks nobody: the phone's motion must be allowed beforehand.
    await page.context().grantPermissions(["accelerometer", "gyroscope"]);
    await follow(page, "Sight along the wire");
    for (const [swing, says] of [
      [9, /too much to count/],
      [1, /7(\.\d)?° below level/],
    ] as const) {
      await calm(page);
      await page.getByRole("button", { name: /Start: ten seconds|Again/ }).click();
      await expect(page.getByText(/Hold it/)).toBeVisible();
      await tilt(page, 7, swing);
      await pass(page, 10_100);
      await expect(page.getByText(says)).toBeVisible();
    }
    await calm(page);
    await page.getByRole("button", { name: "Teach it this angle" }).first().click();
    await expect(page.locator(".taught")).toHaveCount(5);
    await expect(page.locator(".taught").first()).toContainText("below level");
  });
});
