/** How the app is held and read, in one place: every screen is laid out in each of these. */
import type { Page } from "@playwright/test";

export interface Pose {
  width: number;
  height: number;
  /** How large the person has set the letters, beside the usual. */
  letters?: number;
}

export const poses = {
  // Those of one size beside each other: the page is not laid out for another between them.
  // WCAG 2.2, 1.4.4: text to 200 %.
  "letters twice as large": { width: 360, height: 740, letters: 2 },
  "large letters": { width: 360, height: 740, letters: 1.3 },
  "small phone": { width: 360, height: 740 },
  phone: { width: 390, height: 844 },
  "small phone sideways": { width: 740, height: 360 },
  "phone sideways": { width: 844, height: 390 },
  tablet: { width: 768, height: 1024 },
  computer: { width: 1280, height: 800 },
  "zoomed to 200 %": { width: 640, height: 512 },
  // WCAG 2.2, 1.4.10: 1280 × 1024 at 400 % is 320 × 256 CSS pixels.
  "zoomed to 400 %": { width: 320, height: 256 },
} satisfies { [name: string]: Pose };

/** And in which colours: the app's own, and those of the person's system in their place. */
export const palettes = ["day", "dusk", "night"] as const;
export const forced = { forcedColors: "active" } as const;

export type PoseName = keyof typeof poses;
export const poseNames = Object.keys(poses) as PoseName[];

/** Lays the page out anew, without loading it. */
export const hold = (page: Page, name: PoseName): Promise<void> => holdAs(page, poses[name]);

/** Likewise, in one that not every screen is tried in. */
export async function holdAs(page: Page, { width, height, letters = 1 }: Pose): Promise<void> {
  const now = page.viewportSize();
  if (now?.width !== width || now.height !== height) await page.setViewportSize({ width, height });
  // As the browser's own setting of letters does: every length of the app that counts in them follows.
  await page.evaluate(
    async (percent) => {
      document.documentElement.style.fontSize = percent;
      // Once this one is told of the letters' size, the app, which asked first, has been told too.
      await new Promise<void>((done) => {
        const told = new ResizeObserver(() => {
          told.disconnect();
          done();
        });
        told.observe(document.querySelector(".letter-probe") as Element);
      });
    },
    letters === 1 ? "" : `${112.5 * letters}%`,
  );
}
