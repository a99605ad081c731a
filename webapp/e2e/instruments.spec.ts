/** The boat's instruments on two phones: heard, gone by, lost aloud; and ground that rises sounds. */
import type { Browser, Page } from "@playwright/test";
import { expect, test } from "./app";
import { Gateway } from "./gateway";
import { calm, closeTrip, comeAboard, startTrip } from "./notes";
import { pass, phone, reload, within } from "./phone";
import { hold } from "./poses";
import { type Server, startServer } from "./server";

/** Counts the tones that the page makes. */
async function listen(page: Page): Promise<() => Promise<number>> {
  await page.addInitScript(() => {
    const of = AudioContext.prototype;
    const make = of.createOscillator;
    of.createOscillator = function (...args) {
      Object.assign(window, { tones: ((window as { tones?: number }).tones ?? 0) + 1 });
      return make.apply(this, args);
    };
  });
  return () => page.evaluate(() => (window as { tones?: number }).tones ?? 0);
}

async function aboard(browser: Browser, server: Server, name: string, role: string) {
  const page = await phone(browser, { baseURL: server.url });
  const tones = await listen(page);
  await comeAboard(page, server, name, server.invite(role));
  await page.goto("/#/lines");
  return { page, tones };
}

/** One tap, on what has been there for a while. */
async function goByIt(page: Page): Promise<void> {
  const yes = page.getByRole("button", { name: "Go by it" });
  await expect(yes).toBeVisible();
  await pass(page, 500);
  await yes.click();
}

test("on a trip two phones have what the instruments say, and its day is drawn by it once the trip is closed", async ({
  browser,
}) => {
  const gateway = await Gateway.open();
  const server = await startServer("--instruments", gateway.source);
  try {
    const phones = [
      await aboard(browser, server, "Ann", "skipper"),
      await aboard(browser, server, "Ben", "mate"),
    ] as const;
    const [{ page: ann, tones }, { page: ben }] = phones;
    await startTrip(ann);
    const trip = await ann.locator("a.notes-trip").getAttribute("href");
    const began = gateway.said;
    await ann.goto("/#/lines");

    await test.step("two phones have what the instruments say, and both tell that the cable was pulled", async () => {
      for (const { page } of phones) {
        // Asked once, one tap.
        await goByIt(page);
        const bottom = page.locator(".dial", { hasText: "Bottom" });
        await expect(bottom).toContainText("50");
        await expect(bottom.locator("svg.live")).toBeVisible();
      }
      gateway.depth = 16.76;
      for (const { page } of phones)
        await expect(page.locator(".dial", { hasText: "Bottom" })).toContainText("55");
      await ann.goto("/#/pace");
      await expect(ann.getByText("Heading 045°")).toBeVisible();
      await expect(ann.getByText("by the boat’s wheel and the fixes")).toBeVisible();
      await ann.goto("/#/lines/instruments");
      await expect(ann.getByText("from SD tcp")).toBeVisible();
      await ann.goto("/#/lines");
      await reload(ann);
      // The bottom, and the speed by the wheel.
      await expect(ann.locator(".dial svg.live")).toHaveCount(2);
      await expect(ann.getByRole("button", { name: "Go by it" })).toBeHidden();
      // A touch anywhere, without which a browser sounds nothing.
      await ann.locator(".dial", { hasText: "Bottom" }).click();
      gateway.pull();
      const told = (page: Page) => page.getByRole("alert").filter({ hasText: /Not heard for .*the depth/ });
      await Promise.all(phones.map(({ page }) => within(page, 5000, () => told(page).isVisible())));
      for (const { page, tones } of phones) {
        await expect(told(page)).toContainText("Bottom stays at 55 ft");
        // These phones have no receiver.
        await expect(told(page)).toContainText(/Speed stays at 3\.\d+\skn/);
        expect(await tones(), "it is told aloud").toBeGreaterThan(0);
      }
      // Put off, noted; and when it is heard again the app goes by it again.
      await told(ben).getByRole("button", { name: "Quiet, 10 min" }).click();
      await expect(told(ben).getByRole("button", { name: "Quiet, 10 min" })).toBeHidden();
      await told(ann).getByRole("button", { name: "Noted" }).click();
      await expect(told(ann)).toBeHidden();
      gateway.depth = 18;
      gateway.plug();
      for (const { page } of phones) {
        await expect(page.locator(".dial", { hasText: "Bottom" })).toContainText("59");
        await expect(told(page)).toBeHidden();
      }
    });

    await test.step("a shoal that the sounder has passed sounds before the lures are there", async () => {
      expect(await ann.getByText("Rise ahead").count()).toBe(0);
      const before = await tones();
      gateway.depth = 6;
      const rise = ann.getByRole("alert").filter({ hasText: "Rise ahead" });
      await expect(rise).toContainText(/touches in \d+\s+s/);
      // On Lines it is the rows that say how much. In large print they are not beside it: then one number to act on in both.
      await expect(rise).toContainText("Take in, rod by rod.");
      await hold(ann, "large letters");
      const told = () =>
        ann.evaluate(() => {
          const alarm = [...document.querySelectorAll(".notice[role=alert]")]
            .map((one) => one.textContent)
            .join();
          const rows = [...document.querySelectorAll(".rod-face")].map((row) => row.textContent ?? "");
          return rows.map((row) => {
            const [, line = "none"] = /Take in (\d+\s+ft)/.exec(row) ?? [];
            return alarm.includes(line);
          });
        });
      await expect.poll(told).toEqual([true, true, true, true]);
      await expect.poll(tones).toBeGreaterThan(before);
      await hold(ann, "small phone");
    });

    await test.step("what the instruments said on a trip is drawn with its day, once the trip is closed", async () => {
      // The box keeps a second of it with every other word, and the drawing takes five together.
      await expect.poll(() => gateway.said).toBeGreaterThan(began + 24);
      await ann.goto(`/${trip}`);
      await calm(ann);
      await closeTrip(ann);
      const kept = () =>
        ann.evaluate(async () => (await (await fetch("/api/traces")).json()).traces.length as number);
      await expect.poll(kept).toBe(1);
      await ann.goto(`/#/notes/day/${/[^/]+$/.exec(trip ?? "")?.[0]}`);
      await expect(ann.locator("path.day-sounded")).toHaveAttribute("d", /^M.*L/);
      await expect(ann.getByText("Bottom, as the boat’s sounder read it")).toBeVisible();
      await expect(ann.getByRole("heading", { name: "Where" })).toBeVisible();
    });
  } finally {
    gateway.close();
    await server.stop();
  }
});

test("a boat without instruments has nothing of it", async ({ aboard }) => {
  const page = await aboard("Ann", "skipper");
  await page.goto("/#/lines");
  await expect(page.locator(".dial", { hasText: "Bottom" })).toBeVisible();
  expect(await page.locator("svg.live").count()).toBe(0);
  await page.goto("/#/lines/instruments");
  await expect(page.getByText("No instruments are heard.")).toBeVisible();
  await page.goto("/#/locker/ready");
  await expect(page.locator(".check").first()).toBeVisible();
  expect(await page.getByText("Alarms are heard").count()).toBe(0);
});
