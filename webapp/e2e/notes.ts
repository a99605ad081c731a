/** What the tests of notes and exchange do over and over. */
import { expect, type Locator, type Page } from "@playwright/test";
import { pass } from "./phone";
import type { Server } from "./server";

/** Longer than a tap on a page that has just come up is taken for an echo of the one before, or for not considered. */
export const calm = (page: Page) => pass(page, 1100);

/** A row of the timeline. */
export const row = (page: Page, what: string): Locator => page.locator(".told", { hasText: what });

/** Goes to a place of the app, on the server that the page came from. */
const to = (page: Page, path: string) =>
  page.goto(page.url().startsWith("http") ? new URL(path, page.url()).href : path);

export async function startTrip(page: Page): Promise<void> {
  await to(page, "/#/notes");
  await calm(page);
  await page.getByRole("button", { name: "Start a trip" }).click();
}

export async function mark(page: Page): Promise<void> {
  await calm(page);
  await page.getByRole("button", { name: "Mark" }).click();
  await expect(page.getByText("Saved.")).toBeVisible();
  await calm(page);
}

export async function writeNote(page: Page, words: string): Promise<void> {
  await to(page, "/#/notes/new/note");
  await page.locator("textarea").fill(words);
  await to(page, "/#/notes");
  await expect(row(page, words)).toBeVisible();
}

/** A photo of one colour, for the page that asks for one. */
export async function givePhoto(page: Page, colour: string): Promise<void> {
  const url = await page.evaluate((colour) => {
    const canvas = Object.assign(document.createElement("canvas"), { width: 320, height: 240 });
    const context = canvas.getContext("2d") as CanvasRenderingContext2D;
    context.fillStyle = colour;
    context.fillRect(0, 0, 320, 240);
    return canvas.toDataURL("image/jpeg");
  }, colour);
  const buffer = Buffer.from(url.slice(url.indexOf(",") + 1), "base64");
  await page
    .locator('input[type="file"]')
    .setInputFiles({ name: "fish.jpg", mimeType: "image/jpeg", buffer });
}

/** Comes aboard by the link of an invitation. */
export async function comeAboard(
  page: Page,
  server: Server,
  name: string,
  invitation: string,
): Promise<void> {
  await page.goto(`${server.url}/${invitation}`);
  await expect(page.getByText("Here is an invitation.")).toBeVisible();
  expect(page.url()).not.toContain("join");
  await page.getByLabel("A name for this phone").fill(name);
  await calm(page);
  await page.getByRole("button", { name: "Come aboard" }).click();
  await expect(page.getByText(`This phone is “${name}”`)).toBeVisible();
}

/** Asks for an exchange, as a person does who does not want to wait for the next one, and waits for its end. */
export async function exchangeNow(page: Page): Promise<void> {
  await page.goto("/#/notes/unsent");
  await calm(page);
  // One that is under way may have asked before what is waited for was there.
  await expect(page.getByText("Exchanging")).toHaveCount(0);
  await Promise.all([
    page.waitForResponse("**/api/exchange"),
    page.getByRole("button", { name: "Try now" }).click(),
  ]);
  await expect(page.getByText("Exchanging")).toHaveCount(0);
  await page.goto("/#/notes");
}

/** Closes the trip on its page, for everybody aboard. */
export async function closeTrip(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Close the trip" }).click();
  await calm(page);
  await page.getByRole("button", { name: "Close it for all" }).click();
}
