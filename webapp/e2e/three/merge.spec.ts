/** Trips that were opened apart become one, are parted again, and end. */
import { exchangeNow, row, startTrip, writeNote } from "../notes";
import { cut } from "../phone";
import { expect, notes, type Page, sending, tap, test } from "./phones";

test("two trips opened apart at sea are asked about once and become one, also for a third who knew nothing of it", async ({
  aboard,
  guestOf,
}) => {
  const ann = await aboard("Ann", "skipper");
  const ben = await aboard("Ben", "mate");
  for (const page of [ann, ben]) await cut(page);
  await startTrip(ann);
  await writeNote(ann, "Ann at sea");
  await startTrip(ben);
  await writeNote(ben, "Ben at sea");
  await ben.context().setOffline(false);
  await exchangeNow(ben);
  // A third notes in Ben's trip, and goes out of reach.
  const cy = await aboard("Cy", "mate");
  await notes(cy);
  await expect(row(cy, "Ben at sea")).toBeVisible();
  const gus = await guestOf(ben, "Gus");
  await notes(gus);
  await cut(cy);
  await ann.context().setOffline(false);
  await exchangeNow(ann);
  for (const page of [ann, ben]) {
    await notes(page);
    await expect(page.getByText("Two trips are open.")).toBeVisible();
  }
  await expect(gus.getByText("Two trips are open.")).toHaveCount(0);
  await tap(ben, "Make them one");
  for (const page of [ann, ben, gus]) {
    await expect(row(page, "Ann at sea")).toBeVisible();
    await expect(row(page, "Ben at sea")).toBeVisible();
    await expect(page.getByText("Two trips are open.")).toHaveCount(0);
  }
  await writeNote(cy, "Cy knew nothing");
  await cy.context().setOffline(false);
  await exchangeNow(cy);
  await writeNote(ann, "all together");
  for (const page of [ann, ben, gus, cy]) {
    await notes(page);
    await expect(row(page, "Cy knew nothing")).toBeVisible();
    await expect(row(page, "all together")).toBeVisible();
    await expect(sending(page)).toContainText("All sent");
  }
  // Parted again, each has its own.
  await ann.locator("a.notes-trip").click();
  await tap(ann, "Part them again");
  await notes(ann);
  await expect(ann.getByText("Two trips are open.")).toBeVisible();
  await tap(ann, "Keep two");
  await expect(ann.getByText("Two trips are open.")).toHaveCount(0);
  await notes(ben);
  await expect(ben.getByText("Two trips are open.")).toHaveCount(0);
});

/** The phones' clocks, so many hours before or after now. */
async function hour(pages: Page[], by: number): Promise<void> {
  for (const page of pages) await page.clock.setSystemTime(Date.now() + by * 3600_000);
}
const unclosed = (page: Page) => page.getByText("A trip was never closed.");

test("what was noted in another time is asked about, and today's marks begin a trip of their own", async ({
  aboard,
  guestOf,
}) => {
  const ann = await aboard("Ann", "skipper");
  const ben = await aboard("Ben", "mate");
  await test.step("two trips of one outing are asked about days later too, and the one they become goes on if somebody says so", async () => {
    await hour([ann, ben], -80);
    for (const [page, words] of [
      [ann, "Ann at sea"],
      [ben, "Ben at sea"],
    ] as const) {
      await cut(page);
      await startTrip(page);
      await writeNote(page, words);
    }
    await hour([ann, ben], -20);
    for (const page of [ann, ben, ann]) {
      await page.context().setOffline(false);
      await exchangeNow(page);
    }
    for (const page of [ann, ben]) {
      await notes(page);
      await expect(page.getByText("Two trips are open.")).toBeVisible();
      await expect(page.getByText("No trip runs")).toBeVisible();
    }
    await tap(ben, "Make them one");
    for (const page of [ann, ben]) await expect(page.getByText("Two trips are open.")).toHaveCount(0);
    await expect(unclosed(ann)).toBeVisible();
    await expect(ann.getByText("What you note next begins a new trip.")).toBeVisible();
    await tap(ann, "It still goes on");
    for (const page of [ann, ben]) {
      await expect(unclosed(page)).toHaveCount(0);
      await expect(row(page, "Ann at sea")).toBeVisible();
      await expect(row(page, "Ben at sea")).toBeVisible();
    }
    await writeNote(ben, "and on");
    await expect(row(ann, "and on")).toBeVisible();
    await expect(row(ben, "Ann at sea")).toBeVisible();
  });
  await test.step("after a night and a day a mark begins another trip, and the old one is asked to be closed, by the crew", async () => {
    await writeNote(ann, "yesterday");
    await expect(row(ben, "yesterday")).toBeVisible();
    const gus = await guestOf(ann, "Gus");
    await notes(gus);
    await expect(row(gus, "yesterday")).toBeVisible();

    // Today both are at sea before they have heard of each other.
    await hour([ann, ben], 0);
    for (const [page, words] of [
      [ann, "Ann today"],
      [ben, "Ben today"],
    ] as const) {
      await cut(page);
      await writeNote(page, words);
      await expect(row(page, "yesterday")).toHaveCount(0);
      await expect(unclosed(page)).toBeVisible();
    }
    for (const page of [ann, ben, ann]) {
      await page.context().setOffline(false);
      await exchangeNow(page);
    }
    // Only today's two are asked about as one outing.
    await expect(ann.getByText("Two trips are open.")).toBeVisible();
    await tap(ann, "Make them one");
    await expect(ann.getByText("Two trips are open.")).toHaveCount(0);
    for (const page of [ann, ben]) {
      await notes(page);
      await expect(row(page, "Ann today")).toBeVisible();
      await expect(row(page, "Ben today")).toBeVisible();
      await expect(row(page, "yesterday")).toHaveCount(0);
      await expect(unclosed(page)).toBeVisible();
    }
    await expect(unclosed(gus)).toHaveCount(0);
    await tap(ben, "Close it");
    for (const page of [ann, ben]) await expect(unclosed(page)).toHaveCount(0);
    // Whose trip it was is told that it is closed, and what that means.
    await expect(gus.getByText("Ben closed", { exact: false })).toBeVisible();
    for (const page of [ann, ben]) {
      await expect(row(page, "Ann today")).toBeVisible();
      await expect(sending(page)).toContainText("All sent");
      await page.goto("/#/notes/past");
      await expect(page.locator(".links a")).toHaveCount(2);
    }
  });
});
