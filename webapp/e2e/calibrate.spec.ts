/** Touches that teach, the plan of the spread, and a rise ahead. */
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
  test,
  type,
  watch,
} from "./app";
import { Boat, kn, steadily } from "./boat";
import { calm, exchangeNow, row, startTrip } from "./notes";
import { pass, reload } from "./phone";

/** Half the band of a rod's lure as shown. */
const halfOf = async (page: Page, number = 1) =>
  Number(/±\s*([\d.]+)/.exec(await rod(page, number).locator(".readout").innerText())?.[1]);

/** Notes that rod 1 ticks in water as deep as told, or as its lure is reckoned to ride. */
async function touch(page: Page, lineOut: number, bottom?: number): Promise<void> {
  await calm(page);
  await type(await dial(page, "Line out"), String(lineOut));
  await settled(page);
  await type(await dial(page, "Bottom"), String(bottom ?? (await depthOf(page))));
  await settled(page);
  await calm(page);
  await page.getByRole("button", { name: "It touched rod 1" }).click();
  await expect(page.getByText("Noted: Touched bottom.")).toBeVisible();
}

const counts = (page: Page, what: string) =>
  expect(page.getByRole("link", { name: what }).first()).toBeVisible({ timeout: 10_000 });

/** Until all is there the page is shorter above the choice. */
const weighed = async (page: Page) => {
  await expect(page.getByText("let it tick at about")).not.toHaveCount(0);
  await expect(page.getByText("Agrees with the others")).not.toHaveCount(0);
};

const openTouches = async (page: Page) => {
  await calm(page);
  await page.locator(".rod-list-foot").getByRole("link", { name: /touch/i }).click();
  await expect(page.getByRole("heading", { name: "What touches tell" })).toBeVisible();
  await weighed(page);
  await calm(page);
};

test("touches narrow the band, and one that contradicts the others is told", async ({ lines: page }) => {
  await calm(page);
  await page.getByRole("button", { name: "Noted" }).click();

  await test.step("that it ran clear counts too", async () => {
    await follow(page, "More");
    await calm(page);
    await page.getByRole("button", { name: "It ran clear" }).click();
    await expect(page.getByText("Noted: Ran clear of bottom.")).toBeVisible();
    await expect(page.locator(".bands")).toContainText("After 1 touch");
    // Taken back it counts no more.
    await calm(page);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.locator(".bands")).toHaveCount(0);
    await go(page, "lines");
  });

  await test.step("three touches narrow the band on Lines; how much is drawn; depths as before are a tap away", async () => {
    await type(await dial(page, "Line out"), "190");
    await settled(page);
    const wide = await halfOf(page);
    const before = (await rod(page, 1).locator(".readout").textContent()) ?? "";
    for (const lineOut of [200, 230, 180]) await touch(page, lineOut);
    await counts(page, "3 touches count");
    await type(await dial(page, "Bottom"), "50");
    await type(await dial(page, "Line out"), "190");
    await settled(page);
    const narrow = await halfOf(page);
    expect(narrow).toBeLessThan(0.75 * wide);
    expect(narrow).toBeGreaterThan(0.2 * wide);

    await follow(page, "More");
    const bands = page.locator(".bands");
    await expect(bands).toContainText(new RegExp(`Before any touch.*± ?\\s*${wide}`, "s"));
    await expect(bands).toContainText(new RegExp(`After 3 touches.*± ?\\s*${narrow}`, "s"));
    await follow(page, "What touches tell");
    await weighed(page);
    await expect(page.getByText("Agrees with the others")).toHaveCount(3);
    await page.getByRole("radio", { name: "As computed before any touch" }).check({ force: true });

    // Known at the next start before the log has been read, and so is the choice.
    await page.goto("/#/lines");
    await settled(page);
    await expect(rod(page, 1).locator(".readout")).toHaveText(before);
    await reload(page);
    await answered(page);
    await settled(page);
    await expect(rod(page, 1).locator(".readout")).toHaveText(before);
    await openTouches(page);
    await expect(page.getByText("Agrees with the others")).toHaveCount(3);
    await page.getByRole("radio", { name: "With what touches tell" }).check({ force: true });
    await page.goto("/#/lines");
    await reload(page);
    await answered(page);
    // What it was as of the last time may stand there first.
    await settled(page);
    expect(await halfOf(page)).toBe(narrow);
  });

  await test.step("a touch that contradicts is told and struck out with one tap, and that is undone", async () => {
    await touch(page, 210, 22);
    // What was noted is told over it at first.
    await pass(page, 10_000);
    const told = page.getByText("contradicts the others");
    await told.click();
    await expect(told).toContainText(/1 port rigger, 210\sft out in 22\sft/);
    await counts(page, "4 touches count, 1 contradicts");
    await openTouches(page);
    await expect(page.locator(".notice", { hasText: "contradicts" })).toContainText(
      /less deep than all others/,
    );
    await page.getByRole("button", { name: "Strike it out" }).click();
    await expect(page.getByRole("button", { name: "Strike it out" })).toHaveCount(0);
    await expect(page.getByText("3 touches count in every depth.")).toBeVisible();
    await calm(page);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.getByText("4 touches count in every depth.")).toBeVisible();
    await expect(told).toBeVisible();
    // The stroke and its end are in the log like everything else; nothing is at odds there.
    await page.goto("/#/notes");
    await expect(row(page, "Touched bottom")).toHaveCount(4);
    await expect(page.getByText("wrote it otherwise")).toHaveCount(0);
    await calm(page);
    await row(page, "in depth of water 22").or(row(page, "depth of water 22")).first().click();
    await expect(page.locator(".history").last()).not.toContainText("tipHeight");
  });
});

test("touches of one teach the other after an exchange, whatever its units", async ({ aboard }) => {
  const ann = await aboard("Ann", "skipper");
  await ann.goto("/#/locker");
  await calm(ann);
  await ann
    .getByRole("group", { name: "Pull" })
    .getByRole("radio", { name: "kilograms" })
    .check({ force: true });
  const ben = await aboard("Ben", "mate");
  const faults = watch(ann);
  await startTrip(ann);
  await ben.goto("/#/lines");
  await answered(ben);
  await settled(ben);
  const wide = await halfOf(ben);
  await ann.goto("/#/lines");
  await answered(ann);
  for (const lineOut of [200, 230, 180]) await touch(ann, lineOut);
  await exchangeNow(ann);
  await exchangeNow(ben);
  await ben.goto("/#/lines");
  await counts(ben, "3 touches count");
  await settled(ben);
  expect(await halfOf(ben)).toBeLessThan(0.75 * wide);
  // What one strikes out, the other no longer counts.
  await ann.goto("/#/notes");
  await calm(ann);
  await row(ann, "Touched bottom").first().click();
  await calm(ann);
  await ann.getByRole("button", { name: "Strike it out" }).click();
  await exchangeNow(ann);
  await exchangeNow(ben);
  await ben.goto("/#/lines");
  await counts(ben, "2 touches count");
  expect(faults).toEqual([]);
});

test("the spread is planned for the water, the speed, the drails and the hands there are", async ({
  lines: page,
}) => {
  await test.step("the plan is used, read out card by card, and undone", async () => {
    await type(await dial(page, "Bottom"), "60");
    await settled(page);
    const before = await page.locator(".rod-set").allInnerTexts();
    await follow(page, "Plan the spread");
    const proposals = page.locator(".plan li");
    await expect(proposals).toHaveCount(4);
    const setting = await proposals.nth(0).locator(".large-words").innerText();
    await expect(proposals.nth(0)).toContainText("Rides at");
    const order = await page.getByText(/^Let out: /).innerText();
    // The usual turn is looked at too, and one way or the other it is told.
    await expect(page.getByText(/^(In a turn|Not for a turn) of 90° in 60\ss/)).toBeVisible();

    await page.getByRole("link", { name: "Read it out" }).click();
    await expect(page.getByRole("heading", { name: "1 of 4" })).toBeVisible();
    await expect(page.locator(".read-out .rod-number")).toHaveText(
      /Let out: (\d)/.exec(order)?.[1] as string,
    );
    await expect(page.getByText("Gloves on.")).toBeVisible();
    for (const card of ["2 of 4", "3 of 4", "4 of 4"]) {
      await calm(page);
      await page.getByRole("button", { name: "Next rod" }).click();
      await expect(page.getByRole("heading", { name: card })).toBeVisible();
    }
    await expect(page.getByRole("button", { name: "Next rod" })).toBeDisabled();
    await calm(page);
    await page.getByRole("link", { name: "Back" }).click();

    await calm(page);
    await page.getByRole("button", { name: "Use it on Lines" }).click();
    await expect(page.getByText("Lines is set as planned.")).toBeVisible();
    // A rod says the same in fewer words.
    await expect(page.locator(".rod-set").first()).toHaveText(setting.replace(/ (out|drail)/g, ""));
    await settled(page);
    // Set as planned, nothing is left to do but what no line betters.
    for (const one of await page.locator(".rod").all())
      await expect(one).not.toContainText(/Let out|Take in|Put on|Go \d/);
    await calm(page);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.locator(".rod-set").first()).toHaveText(before[0] as string);
    expect(await page.locator(".rod-set").allInnerTexts()).toEqual(before);
  });

  await test.step("a plan for another speed than that of Lines says which, and Lines agrees once she goes it", async () => {
    await type(await dial(page, "Bottom"), "50");
    await type(await dial(page, "Speed"), "3.9");
    await settled(page);
    await follow(page, "Plan the spread");
    const first = page.locator(".plan li").first();
    await expect(first).toContainText("Rides at");
    await expect(page.getByText(/^At 3\.5\skn in/)).toContainText(/Lines has 3\.9\skn: go 3\.5\skn first\.$/);
    const [, depth] = /Rides at (\d+)/.exec(await first.innerText()) ?? [];
    const [, odds] = /Where wanted (\d in 10)/.exec(await first.innerText()) ?? [];
    await calm(page);
    await page.getByRole("button", { name: "Use it on Lines" }).click();
    await expect(
      page.getByText(/Lines is set as planned\. Lines has 3\.9\skn: go 3\.5\skn first\./),
    ).toBeVisible();
    await settled(page);
    await expect(page.locator(".rod").first()).toContainText(/Go 3\.5\skn/);
    await type(await dial(page, "Speed"), "3.5");
    await settled(page);
    await expect(page.locator(".rod").first()).toContainText(new RegExp(`${depth}.*${odds}`, "s"));
  });

  await test.step("the plan has no more drails than are aboard, and no more rods than can be tended", async () => {
    await type(await dial(page, "Speed"), "3.3");
    await follow(page, "Plan the spread");
    await page.getByRole("link", { name: /Drails aboard/ }).click();
    await calm(page);
    for (const name of ["4 oz", "8 oz", "12 oz", "16 oz", "20 oz", "24 oz"])
      await type(page.getByRole("group", { name: new RegExp(`^${name.replace(" ", "\\s")} drail`) }), "0");
    await calm(page);
    await page.getByRole("link", { name: "Back" }).click();
    await expect(page.getByRole("link", { name: "Drails aboard none" })).toBeVisible();
    await expect(page.locator(".plan li").first()).toContainText("Rides at");
    await expect(page.locator(".plan .large-words", { hasText: "drail" })).toHaveCount(0);
    // So far out that backing goes, and it says so, and why.
    await expect(page.locator(".plan")).toContainText(/of backing goes out past the wire/);
    await calm(page);
    await type(page.getByRole("group", { name: "People aboard" }), "2");
    await expect(page.getByText("Stays aboard")).toHaveCount(2);
    await type(page.getByRole("group", { name: "People aboard" }), "99");
    await expect(page.getByRole("alert").filter({ hasText: "Must be from 1 to 20" })).toBeVisible();
  });
});

test("a rise ahead warns with the seconds left and what to do, and is noted or passes", async ({
  lines: page,
}) => {
  const boat = await Boat.aboard(page);
  await follow(page, "Shallow ahead?");
  const now = page.getByRole("group", { name: "Depth now" });
  await page.getByRole("button", { name: "Still 50" }).click();
  await pass(page, 1200);
  await expect(
    page.getByText("stays clear").or(page.getByText("may touch on the way")).first(),
  ).toBeVisible();
  await type(now, "36");
  const warning = page.getByRole("alert").filter({ hasText: "Rise ahead" });
  await expect(warning).toContainText(/Rise ahead, 36\sft: rod\s\d touches in \d+\ss\./);
  await expect(warning).toContainText(/Speed up to \d\.\d\skn\. Or take in \d+\sft on rod\s\d, /);
  await calm(page);
  await page.getByRole("link", { name: "Back" }).click();
  await expect(warning).toBeVisible();
  const left = Number(/touches in (\d+)\ss/.exec(await warning.innerText())?.[1]);
  expect(left).toBeGreaterThan(5);
  expect(left).toBeLessThan(60);

  // A boat that goes faster over ground brings the lures there sooner.
  await page.goto("/#/pace");
  await boat.run(steadily({ water: 3.3 * kn, heading: 0, drift: 2.5 * kn, set: 0 }, 12));
  await page.goto("/#/lines");
  await expect(async () => {
    const sooner = Number(/touches in (\d+)\ss/.exec(await warning.innerText())?.[1]);
    expect(sooner).toBeLessThan(left - 5);
  }).toPass();

  await calm(page);
  await warning.getByRole("button", { name: "Noted" }).click();
  await expect(warning).toHaveCount(0);
  // Shallower still is another matter.
  await page.goto("/#/lines/rise");
  await calm(page);
  await type(now, "30");
  await expect(warning).toContainText(/Rise ahead, 30\sft/);
  await calm(page);
  await page.getByRole("button", { name: "Forget these" }).click();
  await expect(warning).toHaveCount(0);
});
