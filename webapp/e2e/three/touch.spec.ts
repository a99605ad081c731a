/** What is learned of the lines by others' touches. */
import { answered, rod, settled } from "../app";
import { calm, exchangeNow } from "../notes";
import { cutOff, expect, type Page, tap, test, together } from "./phones";

/** A touch by one thumb, on a phone where nobody has set depth or rig. */
async function oneThumb(page: Page): Promise<void> {
  await page.goto("/#/notes/touch");
  await calm(page);
  await page.locator(".links button").first().click();
}

const depth = async (page: Page): Promise<string> => {
  await page.goto("/#/lines");
  await answered(page);
  await settled(page);
  return rod(page, 1).locator(".readout").innerText();
};

const waiting = (page: Page) => page.getByText("It moves no line here until");

test("a touch that one thumb noted at a depth nobody set moves no other phone's rods until the crew takes it", async ({
  three: { ann, ben, gus },
  boat,
}) => {
  const before = await depth(ann);
  expect(await depth(ben)).toBe(before);
  await cutOff([ann, ben, gus]);
  await boat.server.pause();
  await oneThumb(gus);
  await gus.goto("/#/lines/touches");
  await expect(gus.locator("main")).toContainText("Learned from: this phone");
  await boat.server.restart();
  await together([gus, ann, ben]);
  for (const page of [ann, ben]) {
    expect(await depth(page)).toBe(before);
    await page.goto("/#/lines/touches");
    await expect(page.getByText("Gus (guest) noted it. It moves no line here until")).toBeVisible();
    await expect(page.locator("main")).not.toContainText("Learned from");
  }
  await tap(ann, "The depth was so: take it");
  await expect(ann.locator("main")).toContainText("Learned from: Gus");
  await expect(waiting(ann)).toHaveCount(0);
  expect(await depth(ann)).not.toBe(before);
  await exchangeNow(ben);
  await ben.goto("/#/lines/touches");
  await expect(ben.locator("main")).toContainText("Learned from: Gus");
  expect(await depth(ben)).toBe(await depth(ann));
});

test("a mate's touch on a depth nobody set waits too, until another of the crew felt the same", async ({
  three: { ann, ben, gus },
}) => {
  const before = await depth(gus);
  await cutOff([ann, ben]);
  await oneThumb(ben);
  await ben.context().setOffline(false);
  await exchangeNow(ben);
  await exchangeNow(gus);
  await gus.goto("/#/lines/touches");
  await expect(waiting(gus)).toBeVisible();
  expect(await depth(gus)).toBe(before);
  // Nobody has told the skipper's phone of it: two thumbs felt the same.
  await oneThumb(ann);
  await together([ann, gus]);
  await gus.goto("/#/lines/touches");
  await expect(waiting(gus)).toHaveCount(0);
  await expect(gus.locator("main")).toContainText("Learned from: Ann, Ben");
  expect(await depth(gus)).not.toBe(before);
});
