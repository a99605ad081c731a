import { chromium } from "@playwright/test";
import { asked, chromiumPath } from "../tools/chromium.mjs";
import { failCalculating } from "./alarms";
import {
  answered,
  depthOf,
  dial,
  expect,
  follow,
  go,
  type Page,
  rod,
  settled,
  shownIn,
  test,
  watch,
} from "./app";
import { pass, phone, quiet, reload } from "./phone";
import { startServer } from "./server";

const check = (page: Page, name: string) =>
  page.locator(".check").filter({ has: page.getByRole("heading", { name, exact: true }) });

test("light and units are one's own, and cautions a tap or two away", async ({ page }) => {
  await test.step("a phone that prefers dark begins at dusk", async () => {
    await page.emulateMedia({ colorScheme: "dark" });
    await page.goto("/#/lines");
    await expect(page.locator("html")).toHaveAttribute("data-palette", "dusk");
  });

  await test.step("the palette is one tap away, remembered, and there before anything is painted", async () => {
    await page.emulateMedia({ colorScheme: "light" });
    await reload(page);
    await answered(page);
    await expect(page.locator("html")).toHaveAttribute("data-palette", "day");
    const button = page.getByRole("button", { name: "Light:" });
    for (const palette of ["dusk", "night"]) {
      await button.click();
      await expect(page.locator("html")).toHaveAttribute("data-palette", palette);
      await pass(page, 550);
    }
    // The ground is black although neither style sheet nor script of the app has come.
    await page.route(/assets\//, (route) => route.abort());
    await reload(page);
    await expect(page.locator("html")).toHaveAttribute("data-palette", "night");
    await expect(page.locator("html")).toHaveCSS("background-color", "rgb(0, 0, 0)");
    await page.unrouteAll();
    await reload(page);
    await answered(page);
  });

  const reported = watch(page);

  await test.step("a calculator that dies is started again, and that is said", async () => {
    await settled(page);
    const before = await depthOf(page);
    // The next question makes the worker fail, as a phone short of memory would.
    const letAnswer = await failCalculating(page, 1);
    await (await dial(page, "Line out")).getByRole("button", { name: "more" }).click();
    await expect(page.getByText("started again")).toBeVisible();
    await letAnswer();
    await quiet(page);
    // Well for so long it has recovered.
    await pass(page, 5000);
    await expect(page.getByText("started again")).toHaveCount(0);
    await settled(page);
    expect(await depthOf(page)).toBeGreaterThanOrEqual(before);
  });

  await test.step("units are as one thinks, at once and for good", async () => {
    const feet = await depthOf(page);
    await follow(page, "Locker");
    await page.getByRole("group", { name: "Depth in" }).getByRole("radio", { name: "metres" }).check();
    await page.getByRole("group", { name: "Line in" }).getByRole("radio", { name: "fathoms" }).check();
    await page.getByRole("group", { name: "Weights in" }).getByRole("radio", { name: "grams" }).check();
    await follow(page, "Wirewake");
    await settled(page);
    await expect(rod(page, 1).locator(".readout")).toContainText("m");
    expect(Math.abs((await depthOf(page)) - feet * 0.3048)).toBeLessThan(0.6);
    expect(await shownIn(await dial(page, "Line out"))).toMatch(/^\d+(\.\d)?\s*fm$/);
    expect(await shownIn(await dial(page, "Drail"))).toMatch(/^\d+\s*g$/);
    await reload(page);
    await answered(page);
    await expect(rod(page, 1).locator(".readout")).toContainText("m");
  });

  await test.step("cautions and sources are never more than two taps away", async () => {
    await follow(page, "Locker");
    await follow(page, "Cautions");
    await expect(page.locator(".prose")).toContainText("master of the vessel");
    await follow(page, "Back");
    await follow(page, "About and sources");
    await expect(page.locator("main")).toContainText("common practice; no source is known");
  });
  expect(reported).toEqual([]);
});

test("Ready for sea finds everything aboard, and says what is left to do @keeps", async ({ lines: page }) => {
  await page.waitForFunction(() => navigator.serviceWorker.controller);
  await follow(page, "Locker");
  await follow(page, "Ready for sea");
  for (const name of [
    "Secure connection",
    "Opens without signal",
    "All parts aboard",
    "Calculator",
    "Screen can stay on",
  ]) {
    await expect(check(page, name)).toHaveClass(/good/);
  }
  await expect(check(page, "On the home screen")).toHaveClass(/todo/);
  await expect(check(page, "Room for notes and photos")).toContainText(/The app takes [\d.]+\sMB/);
  await expect(check(page, "Storage that stays")).toHaveClass(/todo|good/);
  const open = await page.locator(".check.todo, .check.never").count();
  await expect(page.getByRole("status").first()).toContainText(open === 1 ? "One thing" : String(open));
  await check(page, "On the home screen").getByRole("button").click();
  await page.getByRole("radio", { name: "iPhone, iPad" }).check();
  await expect(page.getByText("tap “Add to Home Screen”")).toBeVisible();
  await expect(page.getByText("Nothing noted here is waiting")).toBeVisible();

  await test.step("and that the phone was asked for its position and said no", async () => {
    await go(page, "locker/ready");
    await check(page, "Position").getByRole("button").click();
    await expect(check(page, "Position")).toContainText("It was asked and said no");
  });
});

test("over plain http on a network the page says what will not work, and works while it is open", async () => {
  // A server that was told to do without https: else the network gets only the way in.
  const server = await startServer("--address", "http://boat.test");
  const browser = await chromium.launch({
    executablePath: chromiumPath,
    args: [...asked, "--host-resolver-rules=MAP boat.test 127.0.0.1"],
  });
  const page = await phone(browser);
  await page.goto(`http://boat.test:${server.port}/#/lines`);
  await answered(page);
  await page.getByRole("button", { name: "Not kept for sea yet" }).click();
  await expect(page.getByText("plain http")).toContainText("with no signal it will not open again");
  await pass(page, 300);
  await page.getByRole("link", { name: "What to do" }).click();
  const secure = check(page, "Secure connection");
  await expect(secure).toHaveClass(/never/);
  await expect(secure).toContainText("https");
  await browser.close();
  await server.stop();
});
