/** Somebody overboard, on every phone in reach, and on those that come into reach later. */
import { calm, exchangeNow, startTrip } from "../notes";
import { alarm, call, cry, over, Receiver, since, way } from "../overboard";
import { within } from "../phone";
import { cutOff, expect, notes, tap, test, together, visit } from "./phones";

test("whoever is in reach has the alarm at once, whoever comes into reach has it then, with the place, and its end", async ({
  three: { ann, ben, gus },
  boat,
}) => {
  const receiver = await Receiver.of(gus);
  await notes(gus);
  await receiver.at(41.25, -51.5);
  await visit(ann, "lines");
  await visit(ben, "pace");
  await cry(gus);
  for (const page of [ann, ben]) await within(page, 2000, () => alarm(page).isVisible());
  await alarm(ben).getByRole("link").click();
  await tap(ben, "It is over");
  await tap(ben, "Back aboard");
  for (const page of [ann, gus]) await within(page, 2000, async () => !(await alarm(page).isVisible()));

  // Once more, out of reach of the box and of each other.
  await cutOff([ann, ben, gus]);
  await boat.server.pause();
  await visit(gus, "notes");
  await receiver.at(41.26, -51.49);
  await visit(gus, "lines");
  await cry(gus);
  await expect(call(gus)).toContainText("41°15.600′N 051°29.400′W");
  await boat.server.restart();
  await together([gus, ann, ben]);
  for (const page of [ann, ben]) {
    await expect(alarm(page)).toContainText("Somebody is overboard");
    await alarm(page).getByRole("link").click();
    await expect(since(page)).toContainText("noted by Gus");
    await expect(call(page)).toContainText("41°15.600′N 051°29.400′W");
  }
  await tap(ann, "It is over");
  await tap(ann, "Back aboard");
  for (const page of [ben, gus]) {
    await exchangeNow(page);
    await expect(alarm(page)).toHaveCount(0);
    await visit(page, "overboard");
    await expect(page.getByText("Nobody is overboard by the notes")).toBeVisible();
  }
});

test("of what guests press the crew is led by what is plausible, and ends the rest at once", async ({
  aboard,
  guestOf,
}) => {
  const ann = await aboard("Ann", "skipper");
  await startTrip(ann);
  await exchangeNow(ann);
  const gus = await guestOf(ann, "Gus");
  await exchangeNow(gus);
  // A degree of latitude is 60 sea miles: by what a sea mile is.
  await (await Receiver.of(ann)).at(41.25, -71.5);
  const guests = await Receiver.of(gus);
  await guests.at(42.25, -71.5);
  await test.step("however often a guest presses, it is told as one, and the crew ends all of it at once, asked again", async () => {
    for (let i = 0; i < 8; i++) {
      await gus.goto("/#/lines");
      await cry(gus);
    }
    await exchangeNow(gus);
    await exchangeNow(ann);
    await alarm(ann).getByRole("link").click();
    await expect(since(ann)).toContainText("noted by Gus (guest)");
    // Above the way back, and again where the place is read out.
    const doubted = ann.getByText("Doubtful: a guest noted that place, 60\u00a0nm from here.");
    await expect(doubted).toHaveCount(2);
    await expect(ann.locator("section", { has: ann.locator(".call") }).filter({ has: doubted })).toHaveCount(
      1,
    );
    await expect(ann.getByText("That phone has pressed it 8 times.")).toBeVisible();
    await expect(ann.getByText("2 more, earlier.")).toBeVisible();
    await expect(ann.getByText(/more (is|are) overboard/)).toHaveCount(0);

    // A case of the crew's own stands before it, and is no part of it.
    await ann.goto("/#/lines");
    await cry(ann);
    await expect(since(ann)).toContainText("noted by this phone");
    await expect(ann.getByText("1 more is overboard")).toBeVisible();
    await ann.locator(".links a", { hasText: "Gus" }).click();
    await calm(ann);
    const all = ann.getByRole("button", { name: "of that phone were a mistake" });
    await expect(all).toHaveText("All 8 of that phone were a mistake");
    await all.click();
    // One touch ends nothing, and what is pressed after it was counted is not ended with it.
    await expect(ann.getByText("That phone has pressed it 8 times.")).toBeVisible();
    await gus.goto("/#/lines");
    await cry(gus);
    await exchangeNow(gus);
    // Heard by itself.
    await expect(ann.getByText("That phone has pressed it 9 times.")).toBeVisible();
    await calm(ann);
    await ann.getByRole("button", { name: "Yes, end all 8" }).click();
    await ann.goto("/#/overboard");
    await expect(since(ann)).toContainText("noted by this phone");
    await expect(ann.getByText("1 more is overboard")).toBeVisible();
    await ann.locator(".links a", { hasText: "Gus" }).click();
    await calm(ann);
    await ann.getByRole("button", { name: "It is over" }).click();
    await calm(ann);
    await ann.getByRole("button", { name: "It was a mistake" }).click();
    await ann.goto("/#/overboard");
    await expect(since(ann)).toContainText("noted by this phone");
    await expect(ann.getByText("more is overboard")).toHaveCount(0);
    await exchangeNow(ann);
    await exchangeNow(gus);
    await gus.goto("/#/overboard");
    await expect(since(gus)).toContainText("noted by Ann");
    await expect(gus.getByText("more is overboard")).toHaveCount(0);
    await ann.goto("/#/overboard");
    await over(ann, "It was a mistake");
  });
  await test.step("a place that a guest makes up far away leads over no plausible one, and is not said by radio", async () => {
    const gwen = await guestOf(ann, "Gwen");
    await exchangeNow(gwen);
    await (await Receiver.of(gwen)).at(41.251, -71.5);
    await cry(gwen);
    await exchangeNow(gwen);
    await guests.at(10, 10);
    await gus.goto("/#/lines");
    await cry(gus);
    await exchangeNow(gus);
    await exchangeNow(ann);
    await expect(alarm(ann)).toContainText("2 alarms");
    await alarm(ann).getByRole("link").click();
    await expect(since(ann)).toContainText("noted by Gwen (guest)");
    await expect(call(ann)).toContainText(/Look for them at 41°15\.\d{3}′N 071°30\.\d{3}′W/);
    // It stays listed, with its doubt; looked at, its page keeps to the screen, and the words tell this boat's place alone.
    await expect(ann.locator(".links a", { hasText: "Gus" })).toContainText("doubtful");
    await ann.locator(".links a", { hasText: "Gus" }).click();
    await expect(since(ann)).toContainText("noted by Gus (guest)");
    // By the haversine formula on a sphere of 6371 km, worked out by hand: 4,627 nm.
    await expect(way(ann)).toContainText(/4,6\d\d\u00a0nm/);
    await expect(call(ann)).toContainText("41°15.000′N 071°30.000′W");
    await expect(call(ann)).not.toContainText("Look for them");
    expect(await ann.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);

    // A phone that was shut out leads over nobody, however near it says it was.
    await ann.goto("/#/lines");
    await guests.at(41.25, -71.5);
    await gus.goto("/#/lines");
    await cry(gus);
    await exchangeNow(gus);
    await exchangeNow(ann);
    await ann.goto("/#/overboard");
    await expect(since(ann)).toContainText("noted by Gus (guest)");
    await visit(ann, "enrol/phones");
    await ann.getByRole("link", { name: /Gus/ }).click();
    await tap(ann, "Shut this phone out");
    await expect(ann.getByText("Shut out", { exact: true })).toBeVisible();
    await exchangeNow(ann);
    await ann.goto("/#/overboard");
    await expect(since(ann)).toContainText("noted by Gwen (guest)");
  });
});
