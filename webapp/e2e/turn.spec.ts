import { depthOf, dial, expect, go, settled, test, type } from "./app";
import { calm } from "./notes";
import { pass, quiet } from "./phone";

test("what a turn or a stop makes of the spread is seen from above, from the side and in time", async ({
  lines: page,
}) => {
  await test.step("a turn sinks the inside lure more than the outside one, and says when it is too tight", async () => {
    const straight = [await depthOf(page, 1), await depthOf(page, 2)];
    const bottomIs = async (depth: string) => {
      await calm(page);
      await type(await dial(page, "Bottom"), depth);
      await settled(page);
      await calm(page);
      await page.getByRole("link", { name: "In a turn" }).click();
    };
    await bottomIs("90");
    await expect(page.getByText("90° in 60 s: radius 215")).toBeVisible();
    const deep = async (row: number) =>
      Number.parseFloat(
        await page.locator(".turn-rods").first().locator("li").nth(row).locator(".readout").innerText(),
      );
    await expect(page.locator(".turn-rods li .readout").first()).toBeVisible();
    // The band reaches farther down than up: it is told by its ends, and shaded in the picture from the side.
    const first = await page.locator(".turn-rods li").first().innerText();
    const [, low = "", high = ""] = /Nine times in ten between (\d+)\sft and (\d+)\sft/.exec(first) ?? [];
    const mid = Number.parseFloat(await page.locator(".turn-rods li .readout").first().innerText());
    expect(Number(high) - mid).toBeGreaterThan(mid - Number(low));
    expect(await page.locator(".turn-figure .doubt").count()).toBeGreaterThanOrEqual(3);
    // Common practice, no source: the inside lure drops in a turn. Rod 1 stands to port.
    expect(await deep(0)).toBeGreaterThan(straight[0] ?? 0);
    const slider = page.getByRole("slider", { name: "Tightness of the turn" });
    await slider.fill("0");
    await expect(page.getByText("Straight ahead", { exact: true })).toBeVisible();
    await expect.poll(() => deep(0)).toBe(straight[0]);
    expect(await deep(1)).toBe(straight[1]);
    await slider.fill("18");
    await expect(page.getByText("The tow collapses").first()).toBeVisible();
    await expect(page.getByText(/How tight may it be/)).toBeVisible();

    // No lure is deeper than the bottom: it touches.
    await slider.fill("0");
    await page.goto("/#/lines");
    await bottomIs("40");
    const first40 = page.locator(".turn-rods").first().locator("li").first();
    await expect(first40).toContainText(/touches \d in 10/);
    for (const [, depth] of (await first40.innerText()).matchAll(/(\d+)\sft/g))
      expect(Number(depth)).toBeLessThanOrEqual(40);

    // On ground above all of its band there is nothing between.
    await page.goto("/#/lines");
    await bottomIs("10");
    await expect(page.locator(".turn-rods li").first()).toContainText("touches over 9 in 10");
    await expect(page.locator(".turn-rods")).not.toContainText("Nine times in ten");
  });

  await test.step("a change too small for the unit chosen is none", async () => {
    await go(page, "lines");
    await type(await dial(page, "Bottom"), "50");
    await page.goto("/#/locker");
    await page.getByRole("group", { name: "Depth in" }).getByRole("radio", { name: "metres" }).check();
    await page.goto("/#/lines/turn");
    const slider = page.getByRole("slider", { name: "Tightness of the turn" });
    const rods = page.locator(".turn-rods");
    let none = 0;
    for (let i = 0; i < 14; i++) {
      await slider.fill(String(i));
      await pass(page, 600);
      await quiet(page);
      const said = await rods.innerText();
      expect(said).not.toMatch(/\b0\.0\sm/);
      none += said.split("as on a straight course").length - 1;
    }
    expect(none).toBeGreaterThan(3);
  });

  await test.step("the boat that stops is followed in time, moving only when asked to", async () => {
    await page.getByRole("button", { name: "The boat stops" }).click();
    await expect(page.getByText(/the (lure|drail) is on the bottom after \d+\ss/).first()).toBeVisible();
    await expect(page.getByText("Do not stop over this bottom")).toBeVisible();
    const time = page.getByRole("slider", { name: "Time" });
    await pass(page, 1500);
    expect(await time.inputValue()).toBe("0");
    await page.getByRole("button", { name: "Play" }).click();
    await expect.poll(async () => Number(await time.inputValue())).toBeGreaterThan(2);
    await page.getByRole("button", { name: "Halt" }).click();
    await time.fill("50");
    await expect(time).toHaveValue("50");
  });
});
