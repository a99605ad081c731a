/** Every screen in three palettes and three poses, looked over by axe, and drawn to webapp/screens for people. */
import { join } from "node:path";
import axe from "axe-core";
import { answered, expect, type Page, settled, test } from "./app";
import { Boat } from "./boat";
import { pass } from "./phone";
import { prepare, screens } from "./screens";

const folder = join(import.meta.dirname, "../screens");

const poses = {
  phone: { width: 360, height: 740 },
  sideways: { width: 740, height: 360 },
  computer: { width: 1280, height: 800 },
} as const;
type Pose = keyof typeof poses;

/** A palette changes nothing but colours, and these not with the pose. */
const lookedAt = { phone: ["dusk", "night", "day"], sideways: ["day"], computer: ["day"] } as const;
/** All rules that are on by default, and 7 : 1, which is an AAA rule; the app keeps to it. */
const all: axe.RunOptions = { rules: { "color-contrast-enhanced": { enabled: true } } };
const contrast: axe.RunOptions = { runOnly: ["color-contrast", "color-contrast-enhanced"] };

for (const [part, ways] of Object.entries(screens)) {
  test(`every screen of ${part}`, async ({ page, server }) => {
    await page.goto("/#/lines");
    await answered(page);
    await settled(page);
    await prepare(page, server);
    const boat = await Boat.aboard(page);
    const paths: [name: string, path: string][] = [];
    for (const [name, way] of Object.entries(ways)) {
      await page.goto("/#/lines");
      const path = await way(page, boat);
      paths.push([name, path]);
      await visit(page, path);
      for (const pose of Object.keys(poses) as Pose[]) await lookOver(page, pose, name);
      await page.setViewportSize(poses.phone);
    }

    // Words are longer in Spanish: nothing of it may be wider than a small phone.
    await page.evaluate(() => localStorage.setItem("language", "es"));
    await page.reload();
    for (const [name, path] of paths) {
      await visit(page, path);
      await page.screenshot({ path: join(folder, `spanish-${name}.png`) });
      expect.soft(await tooWide(page), `${name} in Spanish`).toEqual([]);
    }
  });
}

test.describe("the first screen", () => {
  test.use({ viewport: poses.computer, hasTouch: false });
  test("on a computer", async ({ page }) => {
    await page.goto("/");
    await expect(page.getByRole("heading").first()).toBeVisible();
    await lookOver(page, "computer", "way-in");
  });
});

async function visit(page: Page, path: string): Promise<void> {
  await page.goto(`/#/${path}`);
  await expect(page.getByRole("heading").first()).toBeVisible();
  await pass(page, 400);
}

async function lookOver(page: Page, pose: Pose, name: string): Promise<void> {
  await page.setViewportSize(poses[pose]);
  expect.soft(await tooWide(page), `${name}, ${pose}`).toEqual([]);
  for (const palette of lookedAt[pose]) {
    await page.evaluate((chosen) => {
      document.documentElement.dataset.palette = chosen;
      document.documentElement.style.backgroundColor = "";
    }, palette);
    await page.screenshot({ path: join(folder, `${pose}-${palette}-${name}.png`) });
    await scan(page, palette === "day" ? all : contrast, `${name}, ${pose} in ${palette}`);
  }
}

/** What is wider than its place; what a scrolling part of the page cuts off counts too. */
const tooWide = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [
      document.documentElement,
      ...document.querySelectorAll("main, main > :not(.visually-hidden), .button, .dial, .bar a, .readout"),
    ]
      .filter((part) => part.scrollWidth > part.clientWidth + 1 && part.clientWidth > 0)
      .map((part) => `${part.tagName}.${part.className}: ${part.textContent?.slice(0, 60)}`),
  );

/** Runs axe in the page itself, which has no frames: its own package for Playwright takes ten times as long. */
async function scan(page: Page, rules: axe.RunOptions, what: string): Promise<void> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe.source);
  const { wrong, looked } = await page.evaluate(async (rules) => {
    const { violations, passes } = await (window as unknown as { axe: typeof axe }).axe.run(document, {
      ...rules,
      resultTypes: ["violations"],
    });
    return {
      wrong: violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`),
      looked: passes.map(({ id }) => id),
    };
  }, rules);
  expect(looked, what).toContain("color-contrast-enhanced");
  expect.soft(wrong, what).toEqual([]);
}
