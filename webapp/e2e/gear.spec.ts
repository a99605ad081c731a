import { answered, depthOf, dial, expect, follow, go, rod, settled, test, type } from "./app";
import { pass, reload } from "./phone";

test("saved gear is typed once, and every line goes by what is on it", async ({ lines: page }) => {
  /** The rig that all rods have at first. */
  const firstRig = async () => {
    await page.goto("/#/gear/rigs");
    await page.locator(".links a").first().click();
    await pass(page, 300);
  };

  await test.step("a heavier spoon is typed once and runs deeper on every rod that has it", async () => {
    const [first, second] = [await depthOf(page, 1), await depthOf(page, 2)];
    await rod(page, 1).getByRole("link", { name: "More" }).click();
    await pass(page, 300);
    await follow(page, "Place and rig");
    await follow(page, "Change this rig");
    const spoon = await page.getByLabel("Spoon", { exact: true }).inputValue();
    await go(page, `gear/spoons/${spoon}`);
    await type(page.getByRole("group", { name: "Weight" }), "12");
    await expect(page.getByText("your own")).toBeVisible();
    await page.goto("/#/lines");
    await settled(page);
    expect(await depthOf(page, 1)).toBeGreaterThan(first);
    expect(await depthOf(page, 2)).toBeGreaterThan(second);
    await reload(page);
    await answered(page);
    await settled(page);
    expect(await depthOf(page, 1)).toBeGreaterThan(first);
  });

  await test.step("a number without sense is told at its field, and the old one stays", async () => {
    await follow(page, "Locker");
    await follow(page, "Saved gear");
    await follow(page, "Spoons");
    await page.locator(".links a").first().click();
    await pass(page, 300);
    const weight = page.getByRole("group", { name: "Weight" });
    const before = await weight.locator(".readout").innerText();
    await type(weight, "9000");
    await expect(weight.getByRole("alert")).toContainText(/Must be from .* oz/);
    await expect(weight.locator(".readout")).toHaveText(before);
    await type(weight, "heavy");
    await expect(weight.getByRole("alert")).toContainText("not a number");
    await expect(weight.locator(".readout")).toHaveText(before);
  });

  await test.step("gear is added, named, used on a rig, and cannot be removed while it is", async () => {
    await page.goto("/#/gear");
    await follow(page, "Wires");
    const kinds = await page.locator(".links li").count();
    await page.getByRole("button", { name: "Add one" }).click();
    await pass(page, 300);
    await page.getByLabel("Name").fill("Old spool");
    await type(page.getByRole("group", { name: "Diameter" }), "0.030");
    await expect(page.getByRole("heading", { name: "Old spool" })).toBeVisible();
    await pass(page, 300);
    await follow(page, "Back");
    await expect(page.locator(".links li")).toHaveCount(kinds + 1);
    await firstRig();
    await page.getByLabel("Wire", { exact: true }).selectOption({ label: "Old spool" });
    await expect(page.getByRole("heading", { name: /Old spool/ })).toBeVisible();
    await page.goto("/#/gear/wires");
    await page.locator(".links a", { hasText: "Old spool" }).click();
    await pass(page, 300);
    await expect(page.getByText("In use on")).toBeVisible();
    await expect(page.getByRole("button", { name: "Remove" })).toHaveCount(0);
    await page.goto("/#/gear/wires");
    await page.locator(".links a").first().click();
    await pass(page, 300);
    await page.getByRole("button", { name: "Remove" }).click();
    await expect(page.locator(".links li")).toHaveCount(kinds);
    await pass(page, 300);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.locator(".links li")).toHaveCount(kinds + 1);
  });

  await test.step("a three-way brings the line down by its sinker", async () => {
    await go(page, "lines");
    await type(await dial(page, "Drail"), "0");
    await settled(page);
    const before = await depthOf(page);
    await firstRig();
    await page.getByRole("radio", { name: "Yes" }).check();
    await type(page.getByRole("group", { name: "Sinker", exact: true }), "16");
    await page.goto("/#/lines");
    await settled(page);
    expect(await depthOf(page)).toBeGreaterThan(before + 5);
  });

  await test.step("the drail of a three-way turned down to none stays under the thumb, and comes back by the same", async () => {
    await pass(page, 300);
    // The first has none any more.
    await rod(page, 2).locator(".rod-face").click();
    const drail = await dial(page, "Drail");
    const less = drail.getByRole("button", { name: /less/i });
    for (let i = 0; i < 12 && !(await drail.innerText()).includes("none"); i++) {
      await less.click();
      await pass(page, 300);
    }
    await expect(drail).toContainText("none");
    await drail.getByRole("button", { name: /more/i }).click();
    await expect(drail).not.toContainText("none");
    await type(drail, "0");
    // Once another is in hand it goes, as there is none.
    await page.locator(".dial", { hasText: "Sinker" }).click();
    await expect(page.locator(".dial", { hasText: "Drail" })).toHaveCount(0);
  });

  await test.step("a rig with less line than is out says so in the rod's own words", async () => {
    await firstRig();
    await type(page.getByRole("group", { name: "Wire on the reel" }), "100");
    await type(page.getByRole("group", { name: "Backing on the reel" }), "0");
    await page.goto("/#/lines");
    await expect(rod(page, 1)).toContainText("No answer");
    await expect(rod(page, 1)).toContainText(/Line out: Must be from .* to 100 ft/);
  });
});
