/** What is tapped right after the app came up, before its notes have been read. */
import { answered, expect, type Page, test, watch } from "./app";
import { calm, mark, row } from "./notes";
import { pass, quiet, reload, standing } from "./phone";

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

test("what is tapped before the notes are read, and what is on its way before all is there @keeps", async ({
  lines: page,
}) => {
  await test.step("a hookup marked before the notes are read is of the trip that runs", async () => {
    await mark(page);
    await justUp(page, async () => {
      await page.getByRole("button", { name: "Mark" }).click();
      await expect(page).toHaveURL(/notes\/told/);
    });
    await page.goto("/#/notes");
    await expect(row(page, "Hookup")).toHaveCount(2);
    await expect(page.getByText("Two trips are open")).toHaveCount(0);
  });

  await test.step("a fish that comes up before those in hand are read is beside them", async () => {
    const up = async () => {
      await page.getByRole("button", { name: "Fish up" }).click();
      await expect(page).toHaveURL(/fish\/land/);
    };
    await page.goto("/#/lines");
    await calm(page);
    await up();
    await justUp(page, up);
    await page.goto("/#/fish");
    await expect(page.locator("a[href^='#/fish/land/']")).toHaveCount(2);
  });

  await test.step("what another place than Lines shows is on its way before the frame around it is there", async () => {
    await page.goto("/#/notes");
    await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
    await page.addInitScript(() => {
      const came: string[] = [];
      Object.assign(window, { came });
      new PerformanceObserver((list) => {
        for (const { name } of list.getEntries()) came.push(name);
      }).observe({ type: "resource", buffered: true });
      // Nothing of what is kept is answered, and so the frame is not drawn.
      const { open } = IDBFactory.prototype;
      IDBFactory.prototype.open = function (...of) {
        return Object.assign(open.apply(this, of), { addEventListener: () => undefined });
      };
    });
    await standing(page, async () => {
      await reload(page);
      const came = () => page.evaluate(() => (window as unknown as { came: string[] }).came.join());
      await expect.poll(came).toMatch(/after-.*rooms-|rooms-.*after-/);
      await expect(page.locator(".frame")).toHaveCount(0);
    });
  });
});

/** What does taps. */
const rest = /\/assets\/after-[^/]*\.js$/;

test("what does taps, and what only other pages show, comes later than the first screen", async ({
  page,
}) => {
  const faults = watch(page);
  await page.goto("/#/lines");
  await answered(page);

  await test.step("what only other pages show of what is kept is read when one of them is opened", async () => {
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

  await test.step("what is tapped before what does it has come is done once by the next page, as of the tap", async () => {
    await page.goto("/#/lines");
    await mark(page);
    await page.goto("/#/lines");
    let tapped = 0;
    let comes = true;
    await page.route(rest, (route) => (comes ? route.continue() : undefined));
    for (const name of ["Mark", "Fish up"]) {
      // It never comes, and the page goes away.
      comes = false;
      await page.reload();
      await calm(page);
      await page.getByRole("button", { name }).click();
      if (name === "Mark") tapped = await page.evaluate(() => Date.now());
      await page.clock.fastForward(300_000);
      // Only to the next page: let through, it would come to this one first where the machine is busy.
      comes = true;
      await page.reload();
      if (name === "Mark") await expect(page.getByText("Noted: Hookup.")).toBeVisible();
      await page.goto("/#/fish");
      await expect(page.locator("a[href^='#/fish/land/']")).toHaveCount(name === "Mark" ? 0 : 1);
      await page.goto("/#/lines");
    }
    await reload(page);
    await page.goto("/#/notes");
    // The fish is that of the hookup that was tapped before it.
    await expect(row(page, "Hookup")).toHaveCount(2);
    const late = (await row(page, "Hookup").allInnerTexts()).map((words) => {
      const [, hour, minute] = /(\d\d):(\d\d)/.exec(words) ?? [];
      const then = new Date(tapped);
      return (60 * (Number(hour) - then.getHours()) + Number(minute) - then.getMinutes() + 1440) % 1440;
    });
    // In its minute, and the one before at the most a minute earlier: not five minutes later.
    for (const minutes of late) expect([0, 1439, 1438]).toContain(minutes);
    await page.unroute(rest);
  });

  expect(faults).toEqual([]);

  await test.step("what one tab has tapped another may do, and then it does not do it too", async () => {
    await page.goto("/#/lines");
    await mark(page);
    await page.goto("/#/lines");
    let comes = () => {};
    const held = new Promise<void>((done) => {
      comes = done;
    });
    await page.route(rest, async (route) => {
      await held;
      await route.continue();
    });
    await page.reload();
    await calm(page);
    await page.getByRole("button", { name: "Mark" }).click();
    const other = await page.context().newPage();
    await other.goto("/#/lines");
    await expect(other.getByText("Noted: Hookup.")).toBeVisible();
    comes();
    await expect(page).toHaveURL(/#\/notes$/);
    await expect(row(page, "Hookup")).toHaveCount(4);
    await other.close();
    await page.unroute(rest);
  });

  await test.step("what was tapped while what does it did not come is done once it has, by the same page, and tapped again it means the same", async () => {
    await page.goto("/#/lines");
    await mark(page);
    await page.goto("/#/lines");
    await page.route(rest, (route) => route.abort());
    await page.reload();
    await expect(page.getByRole("button", { name: "Load again" }).first()).toBeVisible();
    for (const name of ["Mark", "Mark", "Fish up"]) {
      await pass(page, 1000);
      await page.getByRole("button", { name }).click();
    }
    await page.unroute(rest);
    await pass(page, 1000);
    await page.getByRole("button", { name: "Mark" }).click();
    await expect(page).toHaveURL(/notes\/told/);
    await page.goto("/#/fish");
    await expect(page.locator("a[href^='#/fish/land/']")).toHaveCount(2);
    // The next page has nothing left to do.
    await reload(page);
    await page.goto("/#/notes");
    await expect(row(page, "Hookup").first()).toBeVisible();
    await quiet(page);
    await expect(row(page, "Hookup")).toHaveCount(6);
  });
});
