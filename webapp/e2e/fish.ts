/** What the tests of the Fish place do over and over. */
import { expect, type Page, type as typeIn } from "./app";
import { calm } from "./notes";

export const ocean = "ocean, state waters (0–3 nautical miles)";

/** Says where the boat is: nothing is judged before. */
export async function chooseWaters(page: Page, waters = ocean): Promise<void> {
  await page.goto("/#/fish/rules");
  await page.getByRole("radio", { name: waters }).check();
  await calm(page);
}

/** Says where the boat is, and that the rules there were looked up today. */
export async function lookUp(page: Page, waters = ocean): Promise<void> {
  await chooseWaters(page, waters);
  await tap(page, "I looked: it still holds");
  await expect(page.locator(".aged")).toHaveCount(0);
}

/** Taps a button of the page, when it is not an echo any more. */
export async function tap(page: Page, name: string): Promise<void> {
  await calm(page);
  await page.getByRole("button", { name, exact: true }).click();
}

/** A fish comes up and is measured: the page that judges it is on screen. */
export async function measured(page: Page, length: string): Promise<void> {
  await page.goto("/#/fish");
  await calm(page);
  await page.getByRole("button", { name: "Fish up" }).click();
  await expect(page.getByRole("heading", { name: "Land it" })).toBeVisible();
  await tap(page, "Next");
  await calm(page);
  await typeIn(page.getByRole("group", { name: "Total length" }), length);
  await tap(page, "Next");
  await expect(page.getByRole("heading", { name: "May we keep it?" })).toBeVisible();
  await expect(page.locator(".fish-verdict")).toBeVisible();
}

/** People of the running trip, by their names. */
export async function peopleAboard(page: Page, ...names: string[]): Promise<void> {
  await page.goto("/#/notes");
  await page.locator("a.notes-trip").click();
  for (const name of names) {
    await page.getByLabel("First name or nickname").fill(name);
    await calm(page);
    await page.getByRole("button", { name: "Add", exact: true }).click();
    await expect(page.getByRole("button", { name: `Take off: ${name}` })).toBeVisible();
  }
}
