/** What the tests of somebody overboard do over and over. */
import type { CDPSession, Page } from "@playwright/test";
import { expect } from "./app";
import { calm } from "./notes";
import { fixed } from "./phone";

/** A receiver that is where the test says. */
export class Receiver {
  private constructor(
    private readonly page: Page,
    private readonly browser: CDPSession,
  ) {}

  static async of(page: Page): Promise<Receiver> {
    await page.context().grantPermissions(["geolocation"]);
    return new Receiver(page, await page.context().newCDPSession(page));
  }

  at(latitude: number, longitude: number): Promise<void> {
    const fix = { latitude, longitude, accuracy: 5 };
    return fixed(this.page, () => this.browser.send("Emulation.setGeolocationOverride", fix));
  }
}

export const control = (page: Page) => page.locator(".overboard-button");
export const alarm = (page: Page) => page.locator(".overboard-alarm");
export const since = (page: Page) => page.locator(".overboard-since");
export const call = (page: Page) => page.locator(".call:visible");
export const way = (page: Page) => page.locator(".way-back-words");

export async function cry(page: Page): Promise<void> {
  await control(page).click();
  await calm(page);
  await page.getByRole("button", { name: "Yes: overboard" }).click();
  await expect(since(page)).toBeVisible();
}

/** Ends the case whose page is on screen. */
export async function over(page: Page, how: string): Promise<void> {
  await calm(page);
  await page.getByRole("button", { name: "It is over" }).click();
  await calm(page);
  await page.getByRole("button", { name: how, exact: true }).click();
  await expect(page.getByText("Nobody is overboard by the notes")).toBeVisible();
}
