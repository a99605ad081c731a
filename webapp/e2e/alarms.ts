/** What sounds on Lines. */
import { expect, type Page, type } from "./app";
import { calm } from "./notes";
import { pass } from "./phone";

/** A rise is ahead, so deep as it is typed. */
export async function riseAhead(page: Page, depth = "38"): Promise<void> {
  await page.goto("/#/lines/rise");
  await calm(page);
  await page.locator(".still").click();
  await pass(page, 1200);
  await type(page.locator(".page-deck .stepper"), depth);
  await page.goto("/#/lines");
  await expect(page.locator(".told-area .alarm")).toBeVisible();
}

/** The calculator stops: each worker that is asked dies. */
export async function stopCalculating(page: Page): Promise<void> {
  await page.evaluate(() => {
    Worker.prototype.postMessage = function (this: Worker) {
      this.onerror?.(new ErrorEvent("error", { message: "killed" }));
    };
  });
  await page.locator(".stepper .step").last().click();
}
