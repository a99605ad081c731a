import { readFileSync } from "node:fs";
import { answered, depthOf, dial, expect, follow, type Page, rod, settled, shownIn, test, type } from "./app";
import { pass, reload } from "./phone";

/** Half the width of a rod's band as shown. */
async function halfOf(page: Page, number = 1): Promise<number> {
  const [, half] = /±\s*([\d.]+)/.exec(await rod(page, number).locator(".readout").innerText()) ?? [];
  return Number(half);
}

/** From the Lines place, the way that a ± on a rod's page is told. */
async function toDoubts(page: Page): Promise<void> {
  await follow(page, "More");
  await follow(page, "The ± comes");
}

async function toLines(page: Page): Promise<void> {
  await follow(page, "Wirewake");
  await settled(page);
}

const doubtOf = (page: Page, name: string) => page.getByRole("group", { name, exact: true });

test("how sure one is of speed, and how cold the water is, is in every depth and its ±", async ({
  lines: page,
}) => {
  await test.step("a doubt beyond its limits is told at its field; all goes back as first set, and that is undone", async () => {
    await toDoubts(page);
    await expect(page.getByText("All is as first set.")).toBeVisible();
    const marks = doubtOf(page, "Line out");
    await type(marks, "101");
    await expect(marks.getByRole("alert")).toContainText(/Must be from 0 to 100 %/);
    expect(await shownIn(marks)).toMatch(/±\s*2\s*%/);
    await marks.getByRole("button", { name: "less" }).click();
    await expect(marks.getByRole("alert")).toBeEmpty();
    expect(await shownIn(marks)).toMatch(/±\s*1\s*%/);
    await page.getByRole("button", { name: "As first set" }).click();
    expect(await shownIn(marks)).toMatch(/±\s*2\s*%/);
    await pass(page, 300);
    await page.getByRole("button", { name: "Undo" }).click();
    expect(await shownIn(marks)).toMatch(/±\s*1\s*%/);
  });
  await test.step("a speed known better narrows the ±, a speed known worse widens it", async () => {
    await toLines(page);
    const first = await halfOf(page);
    const depth = await depthOf(page);
    await toDoubts(page);
    await expect(
      page.getByText("judgements from memory until this boat’s touches tell better"),
    ).toBeVisible();
    const speed = doubtOf(page, "Speed through the water");
    expect(await shownIn(speed)).toMatch(/±\s*0\.2\s*kn/);
    await type(speed, "0.02");
    await toLines(page);
    expect(await halfOf(page)).toBeLessThan(first);
    expect(await depthOf(page)).toBe(depth);

    await toDoubts(page);
    await type(speed, "0.8");
    await expect(speed).toContainText(/first ±\s*0\.2\s*kn/);
    await toLines(page);
    expect(await halfOf(page)).toBeGreaterThan(first);
    await toDoubts(page);
    await page.getByRole("button", { name: "As first set" }).click();
    await pass(page, 300);
    await toLines(page);
  });
  // The right direction: viscosity of sea water falls with warmth (ITTC 7.5-02-01-03), and the drag
  // coefficient of a round line rises as its Reynolds number falls (White, 1 + 10 Re^(−2/3)).
  await test.step("colder water is thicker: with a drail on, every lure runs a little shallower; what is no sea water is refused", async () => {
    await type(await dial(page, "Drail"), "8");
    await settled(page);
    const rods = await page.locator(".rod").count();
    const before = await Promise.all(Array.from({ length: rods }, (_, i) => depthOf(page, i + 1)));
    await follow(page, "Locker");
    await follow(page, "Water");
    await expect(page.getByText("Computed with")).toContainText(/1\.025\sg\/cm³.*1\.19\smm²\/s/);
    const temperature = page.getByRole("group", { name: "Temperature" });
    expect(await shownIn(temperature)).toMatch(/^59\s*°F$/);
    // It stays within what is sea water.
    await type(temperature, "20");
    await expect(temperature.getByRole("alert")).toContainText(/Must be from 29 to 104 °F/);
    expect(await shownIn(temperature)).toMatch(/^59/);
    await type(temperature, "36");
    // 36 °F is 2.2 °C. ITTC's table for sea water has 1.828 mm²/s at 0 °C and 1.561 at 5 °C (from memory).
    await expect(async () => {
      const used = await page.getByText("Computed with").innerText();
      const viscosity = Number(/([\d.]+)\smm²/.exec(used)?.[1]);
      expect(viscosity).toBeGreaterThan(1.56);
      expect(viscosity).toBeLessThan(1.83);
    }).toPass();
    await toLines(page);
    for (const [i, depth] of before.entries()) {
      const now = await depthOf(page, i + 1);
      expect(now).toBeLessThan(depth);
      expect(now).toBeGreaterThan(0.9 * depth);
    }
  });
  await test.step("the temperature is in the degrees one thinks in", async () => {
    await follow(page, "Locker");
    await page.getByRole("group", { name: "Temperature in" }).getByRole("radio", { name: "Celsius" }).check();
    await follow(page, "Water");
    const temperature = page.getByRole("group", { name: "Temperature" });
    // 36 °F.
    expect(await shownIn(temperature)).toMatch(/^2\.2\s*°C$/);
    await type(temperature, "-1");
    expect(await shownIn(temperature)).toMatch(/^−1\s*°C$/);
  });
});

test("water and doubts survive a restart with the radio off, and what cannot be read is not lost @keeps", async ({
  lines: page,
  context,
}) => {
  await test.step("water and doubts survive a restart with the radio off", async () => {
    await page.waitForFunction(() => navigator.serviceWorker.controller);
    await follow(page, "Locker");
    await follow(page, "Water");
    await type(page.getByRole("group", { name: "Temperature" }), "40");
    await page.getByRole("radio", { name: "River mouth" }).check();
    await pass(page, 300);
    await follow(page, "Back");
    await follow(page, "How sure");
    await type(doubtOf(page, "Drag of the line"), "40");
    await toLines(page);
    const before = await page.locator(".rods").innerText();

    await context.setOffline(true);
    await reload(page);
    await answered(page);
    await settled(page);
    expect(await page.locator(".rods").innerText()).toBe(before);
    await follow(page, "Locker");
    await follow(page, "Water");
    expect(await shownIn(page.getByRole("group", { name: "Temperature" }))).toMatch(/^40/);
    await expect(page.getByRole("radio", { name: "River mouth" })).toBeChecked();
    await follow(page, "Back");
    await follow(page, "How sure");
    expect(await shownIn(doubtOf(page, "Drag of the line"))).toMatch(/±\s*40\s*%/);
  });
  await test.step("what could not be read is saved to a file where it is told of, and only then let go of", async () => {
    await page.goto("/#/lines");
    const spoilt = { temperature: "warm", salinity: 33 };
    await page.evaluate(
      (raw) =>
        new Promise<void>((done) => {
          indexedDB.open("wirewake").onsuccess = function () {
            const tx = this.result.transaction("kept", "readwrite");
            tx.objectStore("kept").put(raw, "water");
            tx.oncomplete = () => done();
          };
        }),
      spoilt,
    );
    await reload(page);
    await page.getByRole("button", { name: "Something could not be read" }).click();
    const notice = page.locator(".notice", { hasText: "could not be read" });
    await expect(notice).toContainText("temperature and salt");
    await expect(notice.getByRole("button", { name: "Let go" })).toHaveCount(0);
    await pass(page, 300);

    // Noted, it is still there in the locker.
    await notice.getByRole("button", { name: "Noted" }).click();
    await expect(notice).toHaveCount(0);
    await follow(page, "Locker");
    const download = page.waitForEvent("download");
    await notice.getByRole("button", { name: "Save it to a file" }).click();
    const file = await download;
    expect(file.suggestedFilename()).toBe("wirewake-aside-water.json");
    expect(JSON.parse(readFileSync(await file.path(), "utf8")).aside).toMatchObject([
      { name: "water", raw: spoilt },
    ]);

    await notice.getByRole("button", { name: "Let go" }).click();
    await expect(notice).toHaveCount(0);
    await pass(page, 300);
    await page.getByRole("button", { name: "Undo" }).click();
    // Told anew, and in one line: what was opened in another place was closed with it.
    await page.getByRole("button", { name: "Something could not be read" }).click();
    await expect(notice).toHaveCount(1);
    await pass(page, 300);
    const again = page.waitForEvent("download");
    await notice.getByRole("button", { name: "Save it to a file" }).click();
    await again;
    await notice.getByRole("button", { name: "Let go" }).click();
    await expect(notice).toHaveCount(0);
    await reload(page);
    await expect(page.getByRole("heading", { name: "Locker" })).toBeVisible();
    await pass(page, 600);
    await expect(notice).toHaveCount(0);
  });
});
