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
  // Who goes back before it is told would come to the link that led away, and not to the rods.
  await expect(page.locator(".notices .alarm")).toBeVisible();
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

/** The calculator fails at so many questions; what it is asked then waits until it is let answer. */
export async function failCalculating(page: Page, times: number): Promise<() => Promise<void>> {
  await page.evaluate((times) => {
    const post = Worker.prototype.postMessage;
    let left = times;
    const held: (() => void)[] = [];
    Worker.prototype.postMessage = function (this: Worker, ...sent: unknown[]) {
      if (left-- > 0) this.onerror?.(new ErrorEvent("error", { message: "killed" }));
      else held.push(() => Reflect.apply(post, this, sent));
    };
    Object.assign(window, {
      letAnswer: () => {
        Worker.prototype.postMessage = post;
        for (const one of held) one();
      },
    });
  }, times);
  return () => page.evaluate(() => (window as unknown as { letAnswer: () => void }).letAnswer());
}
