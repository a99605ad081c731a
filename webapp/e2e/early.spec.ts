/** What is tapped right after the app came up, before its notes have been read. */
import { expect, type Page, test } from "./app";
import { calm, mark, row } from "./notes";
import { pass, reload, standing } from "./phone";

/** Loads the app anew at Lines, where it waits for its first answer with all else; that keeps away, and time stands still. */
async function justUp(page: Page, act: () => Promise<void>): Promise<void> {
  await page.goto("/#/lines");
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  await page.addInitScript(() => {
    Worker.prototype.postMessage = () => undefined;
  });
  await standing(page, async () => {
    await reload(page);
    await pass(page, 600);
    await act();
  });
}

test("a hookup marked before the notes are read is of the trip that runs @keeps", async ({ lines: page }) => {
  await mark(page);
  await justUp(page, async () => {
    await page.getByRole("button", { name: "Mark" }).click();
    await expect(page).toHaveURL(/notes\/told/);
  });
  await page.goto("/#/notes");
  await expect(row(page, "Hookup")).toHaveCount(2);
  await expect(page.getByText("Two trips are open")).toHaveCount(0);
});

test("a fish that comes up before those in hand are read is beside them @keeps", async ({ lines: page }) => {
  const up = async () => {
    await page.getByRole("button", { name: "Fish up" }).click();
    await expect(page).toHaveURL(/fish\/land/);
  };
  await calm(page);
  await up();
  await justUp(page, up);
  await page.goto("/#/fish");
  await expect(page.locator("a[href^='#/fish/land/']")).toHaveCount(2);
});

test("what only other pages show of what is kept is read when one of them is opened", async ({
  lines: page,
}) => {
  await page.addInitScript(() => {
    const { get } = IDBObjectStore.prototype;
    const read: string[] = [];
    Object.assign(window, { read });
    IDBObjectStore.prototype.get = function (this: IDBObjectStore, key) {
      if (this.name === "kept") read.push(String(key));
      return get.call(this, key);
    };
  });
  await page.goto("about:blank");
  await page.goto("/#/lines");
  const read = () => page.evaluate(() => (window as unknown as { read: string[] }).read);
  // What goes on all the time counts fish; it is asked for in one go with all that is.
  await expect.poll(read).toContain("fish");
  const shown = ["plan", "forecast", "ice", "keeping", "hands", "looks"];
  expect((await read()).filter((name) => shown.includes(name))).toEqual([]);
  await page.goto("/#/crew");
  await expect.poll(read).toEqual(expect.arrayContaining(shown));
});
