/** How much light a screen gives, and of what colour. */
import type { Page } from "@playwright/test";

/** Relative luminance as WCAG 2.2 defines it: mean and most over a picture of the screen, and its most of green or blue. */
export async function light(page: Page): Promise<{ mean: number; most: number; other: number }> {
  // Playwright's own picture waits for fonts and carets, and is packed as small as can be.
  const browser = await page.context().newCDPSession(page);
  const { data: picture } = await browser.send("Page.captureScreenshot", { optimizeForSpeed: true });
  await browser.detach();
  return page.evaluate(async (picture) => {
    const bytes = Uint8Array.from(atob(picture), (letter) => letter.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const canvas = new OffscreenCanvas(image.width, image.height);
    const drawing = canvas.getContext("2d") as OffscreenCanvasRenderingContext2D;
    drawing.drawImage(image, 0, 0);
    const { data } = drawing.getImageData(0, 0, image.width, image.height);
    const linear = Array.from({ length: 256 }, (_, i) => {
      const c = i / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    let [sum, most, other] = [0, 0, 0];
    for (let i = 0; i < data.length; i += 4) {
      const [r, g, b] = [data[i] ?? 0, data[i + 1] ?? 0, data[i + 2] ?? 0];
      const of = 0.2126 * (linear[r] ?? 0) + 0.7152 * (linear[g] ?? 0) + 0.0722 * (linear[b] ?? 0);
      sum += of;
      most = Math.max(most, of);
      other = Math.max(other, g, b);
    }
    return { mean: sum / (data.length / 4), most, other };
  }, picture);
}
