/** Notes on one phone: with one tap, with no signal, and never lost. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { answered, expect, type Page, test, watch } from "./app";
import { demoFile } from "./demo-season";
import { peopleAboard } from "./fish";
import { calm, closeTrip, mark, row } from "./notes";
import { pass, phone, reload, standing } from "./phone";

const choose = async (page: Page, question: string, answer: string) => {
  await page.getByRole("group", { name: question }).getByRole("radio", { name: answer, exact: true }).click();
};

test.beforeEach(async ({ page }) => {
  const faults = watch(page);
  await page.goto("/#/lines");
  await answered(page);
  await page.getByRole("link", { name: "Notes" }).click();
  await expect(page.getByRole("button", { name: "Mark" })).toBeVisible();
  await calm(page);
  expect(faults).toEqual([]);
});

test("a mark is made with one tap and once, and is not lost", async ({ page }) => {
  await test.step("a page that goes away in the moment of a tap has its note when it comes back", async () => {
    const tapAndReload = async (name: string) => {
      const loaded = page.waitForEvent("load");
      await page.getByRole("button", { name }).evaluate((button: HTMLElement) => {
        button.click();
        location.reload();
      });
      await loaded;
    };
    await tapAndReload("Mark");
    await page.goto("/#/notes");
    await expect(row(page, "Hookup")).toHaveCount(1);
    await calm(page);
    await tapAndReload("Mark");
    await page.goto("/#/notes");
    // In one trip, though nothing of the first was on disk when it went away.
    await expect(row(page, "Hookup")).toHaveCount(2);
  });

  await test.step("a wet double tap marks once; a second fish is one more tap", async () => {
    await calm(page);
    await standing(page, () => page.getByRole("button", { name: "Mark" }).dblclick());
    await calm(page);
    await expect(page.getByRole("radio", { checked: true })).toHaveCount(0);
    await page.getByRole("button", { name: "One more" }).click();
    await calm(page);
    await page.getByRole("button", { name: "Done" }).click();
    await expect(row(page, "Hookup")).toHaveCount(4);
  });

  await test.step("a slow double tap on Mark does not take the mark back", async () => {
    await calm(page);
    const back = page.getByRole("button", { name: "Undo: Hookup" });
    await standing(page, async () => {
      await page.getByRole("button", { name: "Mark" }).click();
      await pass(page, 100);
      await expect(back).toBeVisible();
      await pass(page, 800);
      await back.click();
      await expect(back).toBeVisible();
    });
    await page.goto("/#/notes");
    await expect(row(page, "Hookup")).toHaveCount(5);
    await expect(row(page, "Struck out")).toHaveCount(0);
  });

  await test.step("who marked while he saw to the lines is done, or takes it back, there", async () => {
    for (const [button, hookups, undone] of [
      ["Done", 6, 0],
      ["Undo: Hookup", 7, 1],
    ] as const) {
      await page.goto("/#/lines");
      await mark(page);
      await pass(page, 600);
      await page.getByRole("button", { name: button }).click();
      await expect(page).toHaveURL(/#\/lines$/);
      await page.goto("/#/notes");
      await expect(row(page, "Hookup")).toHaveCount(hookups);
      await expect(row(page, "Struck out")).toHaveCount(undone);
    }
  });

  await test.step("undo strikes out what stays legible, and can be undone", async () => {
    await mark(page);
    await page.getByRole("button", { name: "Undo: Hookup", exact: true }).click();
    await expect(row(page, "Hookup").first()).toContainText("Struck out");
    await calm(page);
    await row(page, "Hookup").first().click();
    await expect(page.getByText(/Struck out by this phone/)).toBeVisible();
    await calm(page);
    await page.getByRole("button", { name: "Take the stroke back" }).click();
    await calm(page);
    await page.getByRole("link", { name: "Back" }).click();
    await expect(row(page, "Hookup").first()).not.toContainText("Struck out");
  });
});

test("what is noted on a trip", async ({ page }) => {
  await test.step("without leave to know the position nothing waits, and nothing is missing but that", async () => {
    await page.getByRole("button", { name: "Start a trip" }).click();
    await calm(page);
    await mark(page);
    await expect(page.getByText("noted without")).toBeVisible();
  });

  await test.step("a hookup is saved with one tap, and what is told of it after is saved at once too", async () => {
    await page.goto("/#/notes");
    await mark(page);
    await choose(page, "Rod", "2 starboard rigger");
    await choose(page, "Fish", "Striped bass");
    await page.getByRole("button", { name: "Length: more" }).click();
    await choose(page, "Kept or let go", "Kept");
    await calm(page);
    await page.getByRole("button", { name: "Done" }).click();
    await expect(row(page, "Hookup").first()).toContainText(/2 starboard rigger, Striped bass, 30.in, Kept/);
    // No save button was touched; nothing but the tap of each answer.
    await reload(page);
    await expect(row(page, "Hookup").first()).toContainText(/2 starboard rigger, Striped bass, 30.in, Kept/);
    await calm(page);
    await row(page, "Hookup").first().click();
    await expect(page.getByText(/\d.oz drail/).first()).toBeVisible();
  });

  await test.step("touch, pass, lines, trouble and bag are a tap or two each", async () => {
    await page.goto("/#/notes");
    await calm(page);
    await page.getByRole("link", { name: "Touch" }).click();
    await calm(page);
    await page.getByRole("button", { name: "1 port rigger" }).click();
    await expect(row(page, "Touched bottom")).toContainText(
      /1 port rigger, depth of water 50.ft, line out \d+.ft/,
    );
    for (const [name, shown] of [
      ["A pass: heading and depth", "Pass"],
      ["Lines set or changed", "Lines set"],
    ] as const) {
      await page.goto("/#/notes/add");
      await calm(page);
      await page.getByRole("button", { name }).click();
      await calm(page);
      // What the spread has told already is not asked as if nobody had.
      if (shown === "Lines set") {
        await expect(page.getByText(/^\d rods out$/)).toBeVisible();
        await expect(page.getByText("not told")).toHaveCount(0);
      }
      await page.getByRole("button", { name: "Done" }).click();
      await expect(row(page, shown)).toBeVisible();
    }
    await page.goto("/#/notes/new/trouble");
    await calm(page);
    await choose(page, "What happened", "Kink");
    await page.goto("/#/notes/new/bag");
    await calm(page);
    await choose(page, "Fish", "Bluefish");
    await page.getByRole("button", { name: "How many: more" }).click();
    await page.goto("/#/notes");
    await expect(row(page, "Gear trouble")).toContainText("Kink");
    await expect(row(page, "In the bag")).toContainText("Bluefish, 1");
  });

  await test.step("a note in words is done with, and it is said that it was kept", async () => {
    await page.goto("/#/notes/new/note");
    await page.locator("textarea").fill("Birds to the north");
    await calm(page);
    await page.getByRole("button", { name: "Done" }).click();
    await expect(page.getByText("Noted: Note.")).toBeVisible();
    await expect(row(page, "Birds to the north")).toBeVisible();
    await calm(page);
    await page.getByRole("button", { name: "Undo", exact: true }).first().click();
    await expect(row(page, "Struck out")).toHaveCount(1);
    // What is left by the way back is kept and said too.
    await page.goto("/#/notes/new/note");
    await page.locator("textarea").fill("Fog");
    await calm(page);
    await page.getByRole("link", { name: "Back" }).click();
    await expect(page.getByText("Noted: Note.")).toBeVisible();
  });

  await test.step("what is typed is kept, though nobody saved it and the page went away", async () => {
    await page.goto("/#/notes/new/note");
    await page.locator("textarea").fill("Birds over the ledge");
    await page.goto("/#/lines");
    await page.goto("/#/notes");
    await expect(row(page, "Birds over the ledge")).toBeVisible();
  });

  await test.step("an amendment leaves the earlier version legible", async () => {
    await page.goto("/#/notes/new/note");
    await page.locator("textarea").fill("Two fish");
    await calm(page);
    await page.getByRole("link", { name: "Back" }).click();
    await calm(page);
    await page.goto("/#/notes");
    await calm(page);
    await row(page, "Two fish").click();
    await calm(page);
    await page.getByRole("button", { name: "Change it" }).click();
    await page.locator("textarea").fill("Three fish");
    await page.getByRole("button", { name: "Done" }).click();
    await expect(page.locator(".large-words")).toHaveText("Three fish");
    await expect(page.locator(".history s")).toHaveText("Two fish");
    await expect(page.locator(".history li", { hasText: "Two fish" })).toContainText(/this phone, \d\d:\d\d/);
  });

  await test.step("a list that was just moved takes no tap, and none of its notes is styled anew for that", async () => {
    await page.goto("/#/notes");
    await mark(page);
    await page.goto("/#/notes");
    const note = page.locator(".told").first();
    await expect(note).toBeVisible();
    await standing(page, async () => {
      // The half second lasts until it is let go by.
      await page.evaluate(() => {
        const { animate } = Element.prototype;
        Element.prototype.animate = function (this: Element, frames, how) {
          return animate.call(this, frames, { ...(how as KeyframeAnimationOptions), duration: 1_000_000 });
        };
        (document.querySelector(".place-list") as HTMLElement).style.marginBottom = "60px";
      });
      const found = () =>
        note.evaluate((one) => {
          const { x, y } = one.getBoundingClientRect();
          return one.contains(document.elementFromPoint(x + 9, y + 9));
        });
      await expect.poll(found).toBe(false);
      expect(await note.evaluate((one) => getComputedStyle(one).pointerEvents)).toBe("auto");
      await page.evaluate(() => {
        for (const animation of document.getAnimations()) animation.finish();
      });
      expect(await found()).toBe(true);
    });
  });

  await test.step("with a receiver a hookup has the last position", async () => {
    await page.context().setGeolocation({ latitude: 41.2542, longitude: -71.5, accuracy: 6 });
    await page.context().grantPermissions(["geolocation"]);
    await reload(page);
    await pass(page, 1000);
    await mark(page);
    await expect(page.getByText("41°15.252′N 071°30.000′W")).toBeVisible();
  });
});

test("trips, one after another", async ({ page }) => {
  await test.step("the page of a trip that is over begins with the catch, the times and who was aboard", async () => {
    await page.getByRole("button", { name: "Start a trip" }).click();
    await peopleAboard(page, "Sam");
    for (const [fish, fate] of [
      ["Striped bass", "Kept"],
      ["Striped bass", "Let go"],
      ["Bluefish", "Kept"],
      ["Got off", ""],
    ] as const) {
      await page.goto("/#/notes");
      await mark(page);
      await choose(page, "Rod", "2 starboard rigger");
      await choose(page, "Fish", fish);
      if (fate) await choose(page, "Kept or let go", fate);
      await calm(page);
      await page.getByRole("button", { name: "Done" }).click();
    }
    await page.goto("/#/notes");
    await calm(page);
    await page.locator("a.notes-trip").click();
    await calm(page);
    await closeTrip(page);
    await calm(page);
    await page.getByRole("link", { name: "Past trips" }).click();
    await calm(page);
    await page.locator(".links a").first().click();
    const main = page.getByRole("main");
    await expect(main.locator(".large-words").nth(1)).toHaveText("2 kept · 1 let go · 1 got off");
    await expect(main.getByRole("listitem").filter({ hasText: "Striped bass" }).first()).toHaveText(
      "Striped bass: 1 kept · 1 let go",
    );
    await expect(main.getByRole("listitem").filter({ hasText: "rigger: " })).toHaveText(
      "2 starboard rigger: 2 kept · 1 let go",
    );
    await expect(main.getByText("Aboard: Sam.")).toBeVisible();
    await expect(main.getByText(/^First note \d\d:\d\d, last note \d\d:\d\d\.$/)).toBeVisible();
    const headings = await main.getByRole("heading").allInnerTexts();
    expect(headings.indexOf("Catch")).toBeLessThan(headings.indexOf("Plan"));
    // The plan is there to be changed, and not as an empty form.
    await expect(page.getByLabel("Ground")).toHaveCount(0);
    await calm(page);
    await page.getByRole("button", { name: "Change it" }).click();
    await page.getByLabel("Ground").fill("The hole beside it");
    await page.getByLabel("Ground").blur();
    await calm(page);
    await page.getByRole("button", { name: "Done" }).click();
    await expect(main.getByText("The hole beside it", { exact: true })).toBeVisible();
  });

  const ground = "The long ledge to the south of the bell buoy, and the hole beside it";
  await test.step("a trip has people and a plan", async () => {
    await page.goto("/#/notes");
    await calm(page);
    await page.getByRole("button", { name: "Start a trip" }).click();
    await peopleAboard(page, "Sam");
    await page.getByLabel("Name", { exact: true }).fill("Opening day");
    await page.getByLabel("Ground").fill(ground);
    await page.getByLabel("Ground").blur();
  });

  await test.step("five notes are in sight on a small phone, also of much to say, on a trip of a long name", async () => {
    await page.goto("/#/notes");
    for (let i = 0; i < 3; i++) {
      await mark(page);
      await page.getByRole("radio", { name: "2 starboard rigger" }).click();
      await page.getByRole("radio", { name: "Striped bass" }).click();
      await page.getByRole("button", { name: "Done" }).click();
      await calm(page);
      await page.getByRole("link", { name: "Touch", exact: true }).click();
      await calm(page);
      await page.locator(".links button").first().click();
      await calm(page);
    }
    await reload(page);
    await expect(page.locator(".told")).toHaveCount(7);
    const inSight = await page.locator(".told").evaluateAll((all) => {
      const list = document.querySelector(".place-list")?.getBoundingClientRect();
      return all.filter((one) => {
        const { top, bottom } = one.getBoundingClientRect();
        return list && top >= list.top && bottom <= list.bottom + 1;
      }).length;
    });
    expect(inSight).toBeGreaterThanOrEqual(5);
  });

  await test.step("the trip is closed, and found again", async () => {
    await page.locator("a.notes-trip").click();
    await calm(page);
    await closeTrip(page);
    await expect(page.getByText("No trip runs")).toBeVisible();
    await calm(page);
    await page.getByRole("link", { name: "Past trips" }).click();
    await expect(page.getByRole("link", { name: `Opening day · ${ground}` })).toBeVisible();
    await page.getByLabel("Search all notes").fill("sam ledge");
    await expect(page.locator(".links a", { hasText: "Aboard Sam" })).toBeVisible();
    await page.getByLabel("Search all notes").fill("nobody");
    await expect(page.getByText("Nothing found.")).toBeVisible();
  });
});

test("notes to and from files", async ({ page, browser }) => {
  await test.step("notes go to a file and come from one; what is no such file is refused in words", async () => {
    const folder = mkdtempSync(join(tmpdir(), "wirewake-notes-"));
    try {
      await mark(page);
      await page.goto("/#/notes/unsent");
      await calm(page);
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("button", { name: "Save it to a file" }).click(),
      ]);
      const path = join(folder, download.suggestedFilename());
      await download.saveAs(path);

      const other = await phone(browser, { baseURL: new URL(page.url()).origin });
      await other.goto("/#/notes/past");
      const load = (file: string) => other.locator('input[type="file"]').setInputFiles(file);
      const broken = join(folder, "broken.json");
      for (const [what, words] of [
        [readFileSync(path, "utf8").slice(0, -50), "may be cut off"],
        ["{}", "not a file of notes"],
        [readFileSync(path, "utf8").replace('"version":1', '"version":9'), "newer version"],
        [
          readFileSync(path, "utf8").replace('"kind":"mark"', '"kind":"mark","id":"<img>"'),
          "Note 2 of this file",
        ],
      ] as const) {
        writeFileSync(broken, what);
        await load(broken);
        await expect(other.getByRole("status").filter({ hasText: words })).toBeVisible();
      }
      await load(path);
      await expect(other.getByText("2 notes came in.")).toBeVisible();
      await load(path);
      await expect(other.getByText("All of this file was here already.")).toBeVisible();
      await expect(other.locator(".links a", { hasText: "1 hookup" })).toBeVisible();
      // The same of a phone whose clock is a day behind.
      const behind = JSON.parse(readFileSync(path, "utf8"));
      for (const entry of behind.entries) {
        for (const name of ["id", "record", "trip"])
          entry[name] = entry[name].replace(/.$/, (last: string) => (last === "0" ? "1" : "0"));
        if (entry.kind === "mark") entry.at -= 24 * 3600_000;
      }
      writeFileSync(broken, JSON.stringify(behind));
      await load(broken);
      await expect(other.locator(".links a", { hasText: "1 hookup" })).toHaveCount(2);
      const trips = await other
        .locator(".links a", { hasText: "1 hookup" })
        .evaluateAll((links) => links.map((link) => link.getAttribute("href")));
      const signs = [];
      for (const href of trips) {
        await other.goto(`/${href}`);
        await expect(other.locator(".timeline .told")).toHaveCount(1);
        signs.push(await other.getByText("Doubtful time: before the trip began").count());
      }
      expect(signs.sort()).toEqual([0, 1]);
      await other.context().close();
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  await test.step("a search says that it stops at a hundred, and is still there on the way back", async () => {
    // By the way on which one comes: the way back to it is another than coming anew.
    await page.goto("/#/notes");
    await page.goto("/#/notes/past");
    await page.locator('input[type="file"]').setInputFiles(demoFile());
    await expect(page.getByText(/\d notes came in/)).toBeVisible();
    const search = page.getByLabel("Search all notes");
    await search.fill("hookup");
    const found = page.locator(".links a", { hasText: "Hookup" });
    await expect(found).toHaveCount(100);
    await expect(page.getByText("Only 100 are shown; there may be more")).toBeVisible();
    await calm(page);
    const one = found.nth(60);
    await one.click();
    await calm(page);
    await page.getByRole("link", { name: "Back" }).click();
    await expect(search).toHaveValue("hookup");
    await expect(found).toHaveCount(100);
    // Where one left.
    await expect(one).toBeFocused();
    await expect(one).toBeInViewport();
    await calm(page);
    await expect(one).toBeFocused();
    // Who comes anew begins anew.
    await page.goto("/#/notes");
    await page.goto("/#/notes/past");
    await expect(search).toHaveValue("");
  });
});

/** A picture of this size, with metadata in it that must not leave the phone. */
async function pictureWithMetadata(page: Page, width: number, height: number): Promise<Buffer> {
  // As text: a list of so many numbers would take longer to hand over than all the rest.
  const url = await page.evaluate(
    ([width, height]) => {
      const canvas = Object.assign(document.createElement("canvas"), { width, height });
      const context = canvas.getContext("2d") as CanvasRenderingContext2D;
      for (let i = 0; i < 400; i++) {
        context.fillStyle = `hsl(${i * 37} 80% ${i % 100}%)`;
        context.fillRect((i * 131) % width, (i * 57) % height, 300, 200);
      }
      return canvas.toDataURL("image/jpeg", 0.9);
    },
    [width, height] as const,
  );
  const plain = Buffer.from(url.slice(url.indexOf(",") + 1), "base64");
  const secret = Buffer.from("Exif\0\0GPSLatitude 41.2542");
  const length = Buffer.from([0xff, 0xe1, 0, secret.length + 2]);
  return Buffer.concat([plain.subarray(0, 2), length, secret, plain.subarray(2)]);
}

test("what one notes with, and photos", async ({ page, context }) => {
  await test.step("two open pages show the same", async () => {
    const other = await context.newPage();
    await other.goto("/#/notes");
    await expect(other.getByText("No trip runs")).toBeVisible();
    await mark(page);
    await expect(row(other, "Hookup")).toBeVisible();
    await calm(other);
    await other.getByRole("button", { name: "Mark" }).click();
    await page.goto("/#/notes");
    await expect(row(page, "Hookup")).toHaveCount(2);
    await other.close();
  });

  await test.step("what one notes with at sea is large, and stands apart", async () => {
    const box = async (name: string) =>
      (await page
        .locator(".place-deck")
        .getByRole(name === "Mark" ? "button" : "link", { name })
        .boundingBox()) as { x: number; y: number; width: number; height: number };
    const large = await box("Mark");
    expect(large.height).toBeGreaterThanOrEqual(96);
    expect(large.width).toBeGreaterThanOrEqual(200);
    const all = [await box("Touch"), await box("Photo"), await box("Other")];
    for (const one of all) expect(one.height).toBeGreaterThanOrEqual(64);
    for (const [i, one] of all.slice(1).entries()) {
      const left = all[i] as (typeof all)[number];
      expect(one.x - left.x - left.width).toBeGreaterThanOrEqual(12);
    }
    expect(large.y - (all[0] as typeof large).y - (all[0] as typeof large).height).toBeGreaterThanOrEqual(12);
    await mark(page);
    const others = await page
      .locator("a:visible, button:visible, .choice:visible")
      .evaluateAll((found) =>
        found.map((one) => ({ name: one.textContent, height: one.getBoundingClientRect().height })),
      );
    for (const { name, height } of others) expect(height, name ?? "").toBeGreaterThanOrEqual(56);
  });

  await test.step("what is no picture is refused in words", async () => {
    await page.goto("/#/notes");
    await page.getByRole("link", { name: "Photo" }).click();
    const none = { name: "fish.jpg", mimeType: "image/jpeg", buffer: Buffer.from("no picture at all") };
    await page.locator('input[type="file"]').setInputFiles(none);
    await expect(page.getByRole("alert")).toContainText("no picture that this browser can read");
  });

  await test.step("a photo is made small, loses its metadata, and stays on the phone", async () => {
    await page.goto("/#/notes");
    await page.getByRole("link", { name: "Photo" }).click();
    const buffer = await pictureWithMetadata(page, 3000, 2000);
    expect(buffer.includes("GPSLatitude")).toBe(true);
    await page
      .locator('input[type="file"]')
      .setInputFiles({ name: "fish.jpg", mimeType: "image/jpeg", buffer });
    await page.getByLabel("What it shows").fill("The first one");
    await calm(page);
    await page.getByRole("button", { name: "Done" }).click();
    await expect(row(page, "The first one").locator("img")).toBeVisible();
    await reload(page);
    await calm(page);
    await row(page, "The first one").click();
    const photo = page.getByRole("img", { name: "The first one" });
    await expect(photo).toBeVisible();
    const kept = await photo.evaluate(async (image: HTMLImageElement) => {
      await image.decode();
      return { width: image.naturalWidth, height: image.naturalHeight };
    });
    expect(kept).toEqual({ width: 1600, height: 1067 });
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("link", { name: "Save the photo" }).click(),
    ]);
    const bytes = readFileSync(await download.path());
    expect(bytes.includes("Exif")).toBe(false);
    expect(bytes.includes("GPSLatitude")).toBe(false);
  });
});
