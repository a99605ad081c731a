/** Photos between phones: cut off midway, of another's fish, moved with it, and told where they do not arrive. */
import { expect, type Page, test } from "./app";
import { calm, exchangeNow, givePhoto, mark, row, startTrip } from "./notes";
import { pass } from "./phone";

const sent = (page: Page) => expect(page.locator(".sending")).toContainText("All sent");

/** Takes a photo of one colour in the running trip. */
async function takePhoto(page: Page, colour: string): Promise<void> {
  await page.goto("/#/notes/new/photo");
  await givePhoto(page, colour);
  await page.getByLabel("What it shows").fill(colour);
  await page.getByLabel("What it shows").blur();
  await page.goto("/#/notes");
  await expect(row(page, colour)).toBeVisible();
}

test("a photo gets to the server over a bad line", async ({ aboard }) => {
  const ann = await aboard("Ann", "skipper");
  const ben = await aboard("Ben", "mate");
  await startTrip(ann);

  await test.step("a photo that was cut off midway arrives whole", async () => {
    // The line breaks after the first part has arrived.
    const parts: string[] = [];
    let broken = true;
    await ann.route("**/api/photos/*", async (route) => {
      const range = route.request().headers()["content-range"] ?? "";
      if (route.request().method() !== "PUT" || range.startsWith("bytes */")) return route.continue();
      if (broken && parts.length > 0) return route.abort();
      parts.push(range);
      return route.continue();
    });
    await ann.goto("/#/notes/new/photo");
    // Of one small piece of noise over and over: it is no smaller for that in this format.
    await ann.locator('input[type="file"]').evaluate(async (input: HTMLInputElement) => {
      const [piece, canvas] = [new OffscreenCanvas(128, 128), new OffscreenCanvas(1600, 1200)];
      const noise = new ImageData(128, 128);
      for (let i = 0; i < noise.data.length; i++)
        noise.data[i] = i % 4 === 3 ? 255 : 128 + 60 * Math.sin(i * i);
      piece.getContext("2d")?.putImageData(noise, 0, 0);
      const context = canvas.getContext("2d") as OffscreenCanvasRenderingContext2D;
      context.fillStyle = context.createPattern(piece, "repeat") as CanvasPattern;
      context.fillRect(0, 0, canvas.width, canvas.height);
      const given = new DataTransfer();
      given.items.add(new File([await canvas.convertToBlob({ type: "image/jpeg" })], "fish.jpg"));
      input.files = given.files;
      input.dispatchEvent(new Event("change", { bubbles: true }));
    });
    await ann.getByLabel("What it shows").fill("cut off");
    await ann.getByLabel("What it shows").blur();
    await expect.poll(() => parts.length).toBe(1);
    broken = false;
    await exchangeNow(ann);
    await expect
      .poll(async () => {
        await exchangeNow(ben);
        await expect(row(ben, "cut off")).toBeVisible();
        await pass(ben, 500);
        return row(ben, "cut off").locator("img").count();
      })
      .toBe(1);
    // What had arrived was not sent a second time.
    expect(parts[0]).toMatch(/^bytes 0-262143\//);
    expect(parts[1]).toMatch(/^bytes 262144-/);
    await row(ben, "cut off").click();
    const shown = await ben
      .getByRole("img", { name: "cut off" })
      .evaluate(async (image: HTMLImageElement) => {
        await image.decode();
        return image.naturalWidth;
      });
    expect(shown).toBe(1600);
    await ann.unroute("**/api/photos/*");
  });

  await test.step("a photo that does not get to the server is told, and keeps no other waiting", async () => {
    // The server's disk does not take the first photo it sees.
    let stuck = "";
    await ann.route("**/api/photos/*", async (route) => {
      const name = route.request().url();
      if (route.request().method() === "PUT") stuck ||= name;
      if (name === stuck) return route.fulfill({ status: 503, json: { code: "store", text: "" } });
      return route.continue();
    });
    await takePhoto(ann, "red");
    await expect(ann.locator(".sending")).toContainText("1 photo not sent");
    const arrived = ann.waitForResponse((r) => r.request().method() === "PUT" && r.status() === 201);
    await takePhoto(ann, "blue");
    await arrived;
    await expect(ann.locator(".sending")).toContainText("1 photo not sent");
    await expect(ann.locator(".sending")).not.toContainText("All sent");
    await calm(ann);
    await ann.locator(".sending").click();
    await expect(ann.getByText("Photos the server has not got")).toBeVisible();
    await expect(ann.getByText("The server could not keep it.")).toBeVisible();
    await expect(ann.locator(".notice").filter({ hasText: "red" })).toHaveCount(1);

    await ann.unroute("**/api/photos/*");
    await calm(ann);
    await ann.getByRole("button", { name: "Try now" }).click();
    await expect(ann.getByText("Photos the server has not got")).toHaveCount(0);
    await ann.goto("/#/notes");
    await sent(ann);
  });
});

test("photos go with their fish", async ({ aboard, server }) => {
  const ann = await aboard("Ann", "skipper");
  await startTrip(ann);
  await ann.goto("/#/notes");
  await mark(ann);
  await exchangeNow(ann);
  await ann.goto("/#/notes");
  const [trip = ""] = /[^/]+$/.exec((await ann.locator("a.notes-trip").getAttribute("href")) ?? "") ?? [];
  const gus = await aboard("Gus", "guest", "--trip", trip);

  await test.step("a guest's photo is of the skipper's fish, and shown with it on both phones", async () => {
    await gus.goto("/#/notes");
    await row(gus, "Hookup").click();
    await calm(gus);
    await gus.getByRole("link", { name: "A photo of it" }).click();
    await givePhoto(gus, "olive");
    await expect(gus.getByRole("heading", { name: /^Hookup/ })).toBeVisible();
    await expect(row(gus, "Photo").locator("img")).toBeVisible();
    await exchangeNow(gus);
    await expect
      .poll(async () => {
        await exchangeNow(ann);
        await ann.goto("/#/notes");
        await pass(ann, 500);
        return row(ann, "Hookup").locator("img").count();
      })
      .toBe(1);
    // It is told once, with the fish.
    await expect(row(ann, "Photo")).toHaveCount(0);
    await row(ann, "Hookup").click();
    await expect(row(ann, "Photo")).toBeVisible();
  });

  await test.step("a photo goes with its fish to another hookup and is struck out, on every phone and after a copy was put back", async () => {
    for (const rod of [1, 2]) {
      await ann.goto("/#/notes");
      await mark(ann);
      await ann.getByRole("radio", { name: new RegExp(`^${rod} `) }).check();
      await calm(ann);
      await ann.getByRole("button", { name: "Done" }).click();
    }
    const others = [await aboard("Ben", "mate"), gus];
    const of = (page: Page, rod: number) =>
      row(page, "Hookup").filter({ hasText: new RegExp(`\\b${rod} (port|starboard)`) });
    /** Every phone's hookups with a picture, by rod, and the photos that stand on their own. */
    const seen = async (page: Page) => {
      await page.goto("/#/notes");
      await pass(page, 500);
      return {
        1: await of(page, 1).locator("img").count(),
        2: await of(page, 2).locator("img").count(),
        alone: await row(page, "Photo").allTextContents(),
      };
    };
    const everywhere = async (what: { 1: number; 2: number; alone: unknown[] }) => {
      await exchangeNow(ann);
      await expect.poll(() => seen(ann)).toEqual(what);
      for (const page of others)
        await expect
          .poll(async () => {
            await exchangeNow(page);
            return seen(page);
          })
          .toEqual(what);
    };

    await ann.goto("/#/fish");
    await calm(ann);
    await ann.getByRole("button", { name: "Fish up" }).click();
    const which = ann.getByRole("group", { name: "Several are hooked. Which one is this?" });
    await calm(ann);
    await which.getByRole("radio", { name: /^2 / }).check();
    await calm(ann);
    await ann.getByRole("button", { name: "A photo of it" }).click();
    await givePhoto(ann, "silver");
    await expect(ann.getByRole("heading", { name: "Land it" })).toBeVisible();
    await everywhere({ 1: 0, 2: 1, alone: [] });

    const putBack = server.backup();
    await ann.goto("/#/fish");
    await ann.getByRole("link", { name: /Go on/ }).click();
    await calm(ann);
    await which.getByRole("radio", { name: /^1 / }).check();
    await calm(ann);
    await everywhere({ 1: 1, 2: 0, alone: [] });

    await of(ann, 1).click();
    await calm(ann);
    await row(ann, "Photo").click();
    await calm(ann);
    await ann.getByRole("button", { name: "Strike it out" }).click();
    // Struck, it is of no fish any more, and legible on its own.
    const struck = { 1: 0, 2: 0, alone: [expect.stringContaining("Struck out")] };
    await everywhere(struck);

    // The copy knows of neither; the phones tell it, and who comes aboard now sees the same.
    await putBack();
    await exchangeNow(ann);
    others.push(await aboard("Cem", "mate"));
    await everywhere(struck);
  });
});
