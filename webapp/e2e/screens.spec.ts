/** Every screen in three palettes and two sizes: looked over by axe, and drawn to webapp/screens for people. */
import { join } from "node:path";
import AxeBuilder from "@axe-core/playwright";
import type { RunOptions } from "axe-core";
import { answered, dial, expect, type Page, settled, test, type } from "./app";
import { Boat, kn, steadily, turning } from "./boat";
import { calm, comeAboard, mark, startTrip, writeNote } from "./notes";
import type { Server } from "./server";

const folder = join(import.meta.dirname, "../screens");
const palettes = ["day", "dusk", "night"] as const;
const sizes = { phone: { width: 360, height: 740 }, computer: { width: 1280, height: 800 } };

const way = { water: 2.7 * kn, heading: 0.7, drift: 0.6 * kn, set: 3.5 };

/** Addresses by a name for the picture's file; what stands for an id is found on the page itself. */
const screens: { [name: string]: (page: Page, boat: Boat) => Promise<string> } = {
  lines: async () => "lines",
  rod: async (page) => `lines/rod/${await selectedRod(page)}`,
  card: async (page) => `lines/card/${await selectedRod(page)}`,
  drail: async (page) => `lines/drail/${await selectedRod(page)}`,
  slow: async (page) => `lines/slow/${await selectedRod(page)}`,
  rig: async (page) => `lines/rig/${await selectedRod(page)}`,
  wanted: async () => "lines/wanted",
  turn: async (page) => {
    await page.goto("/#/lines/turn");
    await expect(page.locator(".turn-rods li").first()).toBeVisible();
    return "lines/turn";
  },
  "touches-none": async () => "lines/touches",
  touches: async (page) => {
    await calm(page);
    for (const [lineOut, bottom] of [
      [220, 46],
      [205, 43],
      [190, 41],
      [200, 24],
    ] as const) {
      await type(await dial(page, "Line out"), String(lineOut));
      await type(await dial(page, "Bottom"), String(bottom));
      await calm(page);
      await page.getByRole("button", { name: "It touched" }).click();
    }
    await type(await dial(page, "Bottom"), "50");
    await settled(page);
    return "lines/touches";
  },
  "lines-contradiction": async () => "lines",
  "rod-learned": async (page) => `lines/rod/${await selectedRod(page)}`,
  plan: async () => "lines/plan",
  "plan-card": async () => "lines/plan/1",
  "drails-aboard": async () => "lines/drails",
  "sounder-none": async () => "lines/sounder",
  sounder: async (page) => {
    await page.goto("/#/lines/sounder");
    await calm(page);
    await page.getByRole("button", { name: "Still" }).click();
    await page.waitForTimeout(1200);
    await type(page.getByRole("group", { name: "Depth now" }), "38");
    await expect(page.getByText("Rise ahead")).toBeVisible();
    return "lines/sounder";
  },
  "lines-rise": async (page) => {
    await page.getByText("Rise ahead").scrollIntoViewIfNeeded();
    return "lines";
  },
  "lines-foot": async (page) => {
    await page.locator(".rod-list-foot").scrollIntoViewIfNeeded();
    return "lines";
  },
  "pace-none": async () => "pace",
  "pace-guess": async (page, boat) => {
    await page.goto("/#/pace");
    await boat.run(steadily(way, 10));
    return "pace";
  },
  find: async () => "pace/find",
  turning: async (page, boat) => {
    await page.goto("/#/pace/find");
    await calm(page);
    await page.getByRole("button", { name: "By a turn" }).click();
    await boat.run(turning(way, 5, 60), 40);
    await expect(page.getByText("Good.")).toBeVisible();
    return "pace/find";
  },
  pace: async (page, boat) => {
    await page.goto("/#/pace/find");
    await calm(page);
    await page.getByRole("button", { name: "Use this current" }).click();
    await boat.run(steadily(way, 10));
    return "pace";
  },
  beat: async () => "pace/beat",
  steer: async () => "pace/steer",
  "type-pace": async () => "pace/type",
  "wanted-speed": async () => "pace/wanted",
  "pace-how": async () => "pace/how",
  notes: async () => "notes",
  told: async (page) => (await firstNote(page, "Hookup")).replace("/record/", "/told/"),
  record: (page) => firstNote(page, "Striped bass"),
  "struck-record": (page) => firstNote(page, "Struck out"),
  "photo-record": (page) => firstNote(page, "Photo"),
  trip: async (page) => {
    await page.goto("/#/notes");
    return ((await page.locator("a.notes-trip").getAttribute("href")) ?? "").slice(2);
  },
  touch: async () => "notes/touch",
  "more-to-note": async () => "notes/add",
  "new-note": async () => "notes/new/note",
  trouble: async () => "notes/new/trouble",
  checks: async () => "notes/new/tick",
  photo: async () => "notes/new/photo",
  past: async () => "notes/past",
  unsent: async () => "notes/unsent",
  aboard: async () => "aboard",
  invite: async () => "aboard/invite",
  phones: async () => "aboard/phones",
  gear: async () => "gear",
  wires: async () => "gear/wires",
  spoon: (page) => firstOf(page, "spoons"),
  "own-rig": (page) => firstOf(page, "rigs"),
  locker: async () => "locker",
  ready: async () => "locker/ready",
  home: async (page) => {
    await page.goto("/#/locker/home");
    await calm(page);
    await page.getByRole("radio", { name: "iPhone, iPad" }).check();
    return "locker/home";
  },
  water: async () => "locker/water",
  "how-sure": async () => "locker/doubt",
  cautions: async () => "locker/cautions",
  about: async () => "locker/about",
  "way-in": async () => "",
};

async function selectedRod(page: Page): Promise<string> {
  const link = await page.locator(".rod-more a").first().getAttribute("href");
  return link?.split("/").at(-1) ?? "";
}

async function firstOf(page: Page, kind: string): Promise<string> {
  await page.goto(`/#/gear/${kind}`);
  return ((await page.locator(".links a").first().getAttribute("href")) ?? "").slice(2);
}

async function firstNote(page: Page, what: string): Promise<string> {
  await page.goto("/#/notes");
  const note = page.locator(".told", { hasText: what }).first();
  return ((await note.getAttribute("href")) ?? "").slice(2);
}

/** What Notes and Aboard look like in use: aboard as the skipper, with a few notes. */
async function prepare(page: Page, server: Server): Promise<void> {
  await comeAboard(page, server, "Ann", server.invite("skipper"));
  await startTrip(page);
  await mark(page);
  await page.getByRole("radio", { name: "2 starboard rigger" }).click();
  await page.getByRole("radio", { name: "Striped bass" }).click();
  await page.getByRole("button", { name: "One more" }).click();
  await calm(page);
  await page.getByRole("button", { name: "Undo" }).click();
  await writeNote(page, "Birds working over the ledge, tide just turned.");
  await page.goto("/#/notes/new/photo");
  const picture = await page.screenshot();
  await page
    .locator('input[type="file"]')
    .setInputFiles({ name: "p.png", mimeType: "image/png", buffer: picture });
  await expect(page.getByText("Saved.")).toBeVisible();
}

for (const [size, viewport] of Object.entries(sizes)) {
  test.describe("every screen", () => {
    test.use({ viewport, hasTouch: size === "phone" });
    test(`on a ${size}`, ({ page, server }) => lookOver(page, server, size));
  });
}

async function lookOver(page: Page, server: Server, size: string): Promise<void> {
  test.setTimeout(480_000);
  await page.goto("/#/lines");
  await answered(page);
  await settled(page);
  await prepare(page, server);
  const boat = await Boat.aboard(page);
  for (const [name, address] of Object.entries(screens)) {
    if (name === "way-in" && size === "phone") continue;
    await page.goto("/#/lines");
    const path = await address(page, boat);
    await page.goto(path ? `/#/${path}` : "/");
    await expect(page.getByRole("heading").first()).toBeVisible();
    await page.waitForTimeout(400);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide, `${name} is wider than the screen`).toBeLessThanOrEqual(0);
    for (const palette of [...palettes.slice(1), palettes[0]]) {
      await page.evaluate((chosen) => {
        document.documentElement.dataset.palette = chosen;
        document.documentElement.style.backgroundColor = "";
      }, palette);
      await page.screenshot({ path: join(folder, `${size}-${palette}-${name}.png`) });
      await check(page, rulesFor(size, palette), `${name} in ${palette}`);
    }
  }
}

async function check(page: Page, rules: RunOptions | undefined, what: string): Promise<void> {
  if (!rules) return;
  const found = await new AxeBuilder({ page }).options(rules).analyze();
  expect(found.passes.map((rule) => rule.id)).toContain("color-contrast-enhanced");
  const told = found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(" ")}`);
  expect(told, what).toEqual([]);
}

/**
 * By day all rules that are on by default, and 7 : 1, which is an AAA rule; the app keeps to it. Another palette
 * changes nothing but colours, and these not with the size.
 */
function rulesFor(size: string, palette: string): RunOptions | undefined {
  if (palette === "day") return { rules: { "color-contrast-enhanced": { enabled: true } } };
  if (size === "computer") return undefined;
  return { runOnly: ["color-contrast", "color-contrast-enhanced"] };
}
