/** Before the boat leaves, and when it is bad: lists, heads and pages on every phone, with no network and with it again. */
import { exchangeNow } from "../notes";
import { cutOff, expect, type Page, tap, test, together, visit } from "./phones";

const check = (page: Page, words: string) => page.getByRole("button", { name: words });
const ticked = (page: Page, words: string) =>
  expect(check(page, words)).toHaveAttribute("aria-pressed", "true");
const call = (page: Page) => page.locator("main > .call");
const plan = (page: Page) => page.locator("main > .floatplan-text");

test("what each has ticked, said and heard, apart and with the server gone, stands on every phone", async ({
  three: { ann, ben, gus },
  boat,
}) => {
  // The skipper has a check of the boat's own: it is on the others' lists too.
  await visit(ann, "crew/change/leaving");
  await ann.getByLabel("Add a check").fill("Ladder tried");
  await tap(ann, "Add");
  await visit(ann, "crew/boat");
  for (const [label, words] of [
    ["Name of the boat", "Petrel"],
    ["Registration", "XX 1234 ZZ"],
  ] as const) {
    await ann.getByLabel(label, { exact: true }).fill(words);
    await ann.getByLabel(label, { exact: true }).blur();
  }
  await exchangeNow(ann);
  for (const page of [ben, gus]) {
    await exchangeNow(page);
    await visit(page, "crew/radio");
    await expect(call(page)).toContainText("This is Petrel, Petrel, Petrel");
    await expect(page.getByText("Count everybody, the skipper too.")).toBeVisible();
  }
  await cutOff([ann, ben, gus]);
  await boat.server.pause();

  const all = [
    [ann, "Drain plug in", "Ann"],
    [ben, "Extinguisher", "Ben"],
    [gus, "A life jacket that fits", "Gus"],
  ] as const;
  for (const [page, words] of all) {
    await visit(page, "crew/list/leaving");
    await expect(check(page, "Ladder tried")).toBeVisible();
    // What the law asks of it, with where it says so.
    await expect(check(page, "A life jacket that fits")).toContainText("33 CFR 175.15");
    await check(page, words).click();
    await expect(check(page, words)).toContainText("this phone");
  }
  // Two tick the same: it is ticked once, and one of them takes it back.
  for (const page of [ben, gus]) await check(page, "Ladder tried").click();
  await visit(ben, "crew/floatplan");
  const more = ben.getByRole("group", { name: "How many are aboard?" }).getByRole("button", { name: "more" });
  for (let i = 0; i < 3; i++) {
    await more.click();
    await ben.clock.runFor(300);
  }
  await expect(plan(ben)).toContainText("Aboard (3)");
  await expect(plan(ben)).toContainText("XX 1234 ZZ");
  // A guest hears the briefing to its end, and says so.
  await visit(gus, "crew/briefing/14");
  await tap(gus, "Tick it");
  await gus.getByLabel("First name or nickname").fill("Gus");
  await tap(gus, "I have heard it");
  await ticked(gus, "Gus");

  await boat.server.restart();
  await together([ann, ben, gus]);
  await test.step("three tick off what must be aboard, apart and with the server gone, and all see who ticked what", async () => {
    for (const page of [ann, ben, gus]) {
      await visit(page, "crew/list/leaving");
      for (const [whose, words, name] of all) {
        await ticked(page, words);
        await expect(check(page, words)).toContainText(page === whose ? "this phone" : name);
      }
      await ticked(page, "Ladder tried");
      await expect(page.getByRole("status")).toContainText(/^4 of 20 done$/);
    }
    await check(ann, "Ladder tried").click();
    for (const page of [ben, gus]) {
      await expect(check(page, "Ladder tried")).toHaveAttribute("aria-pressed", "false");
      await expect(page.getByRole("status")).toContainText(/^3 of 20 done$/);
    }
  });
  await test.step("the skipper sees who has heard the briefing", async () => {
    await visit(ann, "crew");
    await expect(ann.getByRole("link", { name: /Briefing/ })).toContainText("1 of 1 have ticked");
    await visit(ann, "crew/briefed");
    await ticked(ann, "Gus");
    await expect(check(ann, "Gus")).toContainText("Gus");
  });
  await test.step("how many are aboard is told once, and stands in everybody's call for help and in the float plan", async () => {
    for (const page of [ann, gus]) {
      await exchangeNow(page);
      await cutOff([page]);
      await visit(page, "crew/radio");
      await expect(call(page)).toContainText("3 people aboard");
      await expect(call(page)).toContainText("Listening on channel 16.");
      await expect(page.getByText("Count everybody, the skipper too.")).toHaveCount(0);
      await visit(page, "crew/floatplan");
      await expect(plan(page)).toContainText("Aboard (3)");
      await expect(plan(page)).toContainText("XX 1234 ZZ");
    }
  });
});
