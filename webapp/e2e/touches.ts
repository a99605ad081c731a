/** Touches that contradict each other: three of one line, and one of another. */
import { type Page, settled, type } from "./app";
import { calm } from "./notes";

/** Line out and bottom of each, as typed. */
export const contradictory = [
  ["220", "46"],
  ["205", "43"],
  ["190", "41"],
  ["200", "24"],
] as const;

/** Sets a dial by its turn in the row, whatever it is called. */
export async function setDial(page: Page, which: number, typed: string): Promise<void> {
  await page.locator(".dial").nth(which).click();
  await type(page.locator(".place-deck .stepper"), typed);
}

/** Notes all of them, and goes on to deeper water; after each something may be done. */
export async function touchAll(page: Page, then?: (bottom: string) => Promise<void>): Promise<void> {
  for (const [lineOut, bottom] of contradictory) {
    await calm(page);
    await setDial(page, 0, lineOut);
    await setDial(page, 3, bottom);
    await settled(page);
    await page.locator(".touch-now").click();
    await then?.(bottom);
  }
  await setDial(page, 3, "50");
}
