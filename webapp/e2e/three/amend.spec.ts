/** Who may amend whom: one's own at once, others' by what is proposed, which the crew decides. */
import { calm, exchangeNow, row, writeNote } from "../notes";
import { cut } from "../phone";
import { expect, notes, type Page, sending, tap, test } from "./phones";

test("what a guest would have another's note or trip say is proposed, and the crew decides it with one tap", async ({
  three: { ann, ben, gus },
}) => {
  await test.step("what a guest would have another's note say is proposed, and taken with one tap", async () => {
    await cut(gus);
    await row(gus, "first of the trip").click();
    await tap(gus, "Propose a change");
    await gus.locator("textarea").fill("second of the trip");
    await gus.locator("textarea").blur();
    await tap(gus, "Done");
    await expect(gus.getByText("The crew sees this")).toBeVisible();
    await expect(gus.locator(".large-words")).toHaveText("first of the trip");
    await gus.context().setOffline(false);
    await exchangeNow(gus);
    await expect(sending(gus)).toContainText("All sent");
    for (const page of [ann, ben]) {
      await notes(page);
      await expect(row(page, "first of the trip")).toContainText("A change is proposed");
    }
    await row(ben, "first of the trip").click();
    await expect(ben.getByText("Proposed by Gus")).toBeVisible();
    await tap(ben, "Take this");
    await expect(ben.locator(".large-words")).toHaveText("second of the trip");
    for (const page of [ann, gus]) {
      await notes(page);
      await expect(row(page, "second of the trip")).not.toContainText("proposed");
    }
    // Its own the guest changes as ever.
    await writeNote(gus, "mine");
    await row(gus, "mine").click();
    await tap(gus, "Change it");
    await gus.locator("textarea").fill("mine, rightly");
    await tap(gus, "Done");
    await notes(ann);
    await expect(row(ann, "mine, rightly")).not.toContainText("otherwise");
  });
  await test.step("a guest proposes to the plan of the trip, and the crew takes it on the trip's page", async () => {
    const trip = async (page: Page) => {
      await notes(page);
      await page.locator("a.notes-trip").click();
      await calm(page);
    };
    await trip(gus);
    await expect(gus.getByLabel("Ground")).toHaveCount(0);
    await tap(gus, "Propose a change");
    await gus.getByLabel("Ground").fill("The ledge");
    await gus.getByLabel("Ground").blur();
    await expect(gus.locator(".notice.several")).toContainText("Ground: The ledge");
    // What the guest adds is the guest's own: nobody asks to look at it anew.
    await gus.getByLabel("Wind").fill("west");
    await gus.getByLabel("Wind").blur();
    await expect(gus.locator(".notice.several")).toContainText("Wind: west");
    await expect(gus.locator(".notice.several")).toContainText("Ground: The ledge");
    await expect(gus.getByText("Something else is proposed by now.")).toHaveCount(0);
    await tap(gus, "Done");
    await expect(gus.getByText("The crew sees this")).toBeVisible();
    await exchangeNow(gus);
    await expect(sending(gus)).toContainText("All sent");
    await expect(row(gus, "The ledge")).toHaveCount(0);
    for (const page of [ann, ben]) {
      await notes(page);
      await expect(page.locator("a.notes-trip")).toContainText("A change is proposed");
    }
    // Both are there: what comes later would be left to decide.
    await exchangeNow(ben);
    await trip(ben);
    await expect(ben.getByText("Proposed by Gus")).toBeVisible();
    await expect(ben.locator(".notice.several")).toContainText("Ground: The ledge");
    await expect(ben.locator(".notice.several")).toContainText("Wind: west");
    await tap(ben, "Take this");
    await expect(ben.getByLabel("Ground")).toHaveValue("The ledge");
    await trip(gus);
    await expect(gus.getByRole("main")).toContainText("The ledge");
    await expect(gus.getByText("Proposed by")).toHaveCount(0);
    await notes(ann);
    await expect(ann.locator("a.notes-trip")).not.toContainText("proposed");
  });
  await test.step("a guest's stroke through another's note is proposed, and its history tells that one left it and another took it", async () => {
    await writeNote(ann, "last of the trip");
    await notes(gus);
    await row(gus, "last of the trip").click();
    await tap(gus, "Propose to strike it out");
    const undo = gus.locator(".notices .notice").filter({ hasText: "Undo" });
    await expect(undo).toContainText("Proposed");
    await undo.getByRole("button", { name: "Undo" }).click();
    await expect(gus.getByText("Proposed by")).toHaveCount(0);
    await tap(gus, "Propose to strike it out");
    await expect(gus.getByText("The crew sees this")).toBeVisible();
    await exchangeNow(gus);
    await expect(sending(gus)).toContainText("All sent");
    for (const page of [ann, ben]) {
      await notes(page);
      await row(page, "last of the trip").click();
      await expect(page.getByText("Proposed by Gus")).toBeVisible();
      await cut(page);
    }
    await tap(ben, "Leave it as it is");
    await tap(ann, "Take this");
    await expect(ann.locator(".large-words")).toHaveClass(/struck/);
    for (const page of [ben, ann, ben]) {
      await page.context().setOffline(false);
      await exchangeNow(page);
      await expect(sending(page)).toContainText("All sent");
    }
    await notes(ben);
    await row(ben, "last of the trip").click();
    await expect(
      ben.locator(".history li").filter({ hasText: "Left what Gus (guest) proposed" }),
    ).toContainText("this phone");
    await expect(
      ben.locator(".history li").filter({ hasText: "Took what Gus (guest) proposed" }),
    ).toContainText("Ann");
  });
});

/** Somebody who changes what was proposed before for the first note. */
async function propose(guest: Page, words: string): Promise<void> {
  await notes(guest);
  await row(guest, "first of the trip").click();
  await tap(guest, "Propose a change");
  await guest.locator("textarea").fill(words);
  await guest.locator("textarea").blur();
  await tap(guest, "Done");
  await exchangeNow(guest);
  await expect(sending(guest)).toContainText("All sent");
}

test("of several proposals the crew takes what it has read, whose it likes", async ({
  three: { ann, ben, gus },
  guestOf,
}) => {
  await test.step("what is taken of a proposal is what was read, here and where another version of it crosses", async () => {
    await propose(gus, "second");
    const proposed = (page: Page) => page.locator(".notice.several");
    for (const page of [ann, ben]) {
      await notes(page);
      await row(page, "first of the trip").click();
      await expect(proposed(page)).toContainText("second");
    }
    await cut(ben);
    await propose(gus, "third");
    // It does not change under the thumb: it is told, and shown by a tap.
    await expect(ann.getByText("Something else is proposed by now.")).toBeVisible();
    await expect(proposed(ann)).toContainText("second");
    await expect(proposed(ann)).not.toContainText("third");
    await expect(ann.getByRole("button", { name: "Take this" })).toHaveCount(0);
    await tap(ben, "Take this");
    await expect(ben.locator(".large-words")).toHaveText("second");
    await ben.context().setOffline(false);
    await exchangeNow(ben);
    // What Ben took had nothing of the third: that is still to be decided, by all.
    await notes(ben);
    await row(ben, "second").click();
    await expect(proposed(ben)).toContainText("third");
    await expect(ann.locator(".large-words")).toHaveText("second");
    await tap(ann, "Show what is proposed now");
    await expect(proposed(ann)).toContainText("third");
    await tap(ann, "Take this");
    await expect(ann.locator(".large-words")).toHaveText("third");
    for (const page of [ben, gus]) {
      await notes(page);
      await expect(row(page, "third")).not.toContainText("proposed");
    }
  });
  await test.step("however much one guest proposes, another's proposal is seen beside it, and all of one is left with a tap", async () => {
    await writeNote(ann, "words of many");
    await notes(gus);
    const kim = await guestOf(ann, "Kim");
    const [, note = ""] =
      /record\/(.*)$/.exec((await row(gus, "words of many").getAttribute("href")) ?? "") ?? [];
    await gus.evaluate(async ([trip, record]) => {
      const many = Array.from({ length: 180 }, (_, i) => ({
        ...{ id: `01997c3e-9b2a-7c41-8f0e-${String(i).padStart(12, "0")}`, record: crypto.randomUUID() },
        ...{ kind: "proposal", trip, prev: [], at: 1, n: 1000 + i },
        set: { of: record, says: { text: `flood ${i}` } },
      }));
      const answer = await fetch("/api/exchange", {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify({ version: 1, entries: many }),
      });
      const { refused } = await answer.json();
      if (refused.length > 0) throw new Error(JSON.stringify(refused[0]));
    }, note.split("."));
    await notes(kim);
    await row(kim, "words of many").click();
    await tap(kim, "Propose a change");
    await kim.locator("textarea").fill("Kim's words");
    await kim.locator("textarea").blur();
    await tap(kim, "Done");
    await exchangeNow(kim);
    await exchangeNow(ann);
    await ann.goto(`/#/notes/record/${note}`);
    const proposed = ann.locator(".notice.several");
    await expect(proposed).toHaveCount(2);
    await expect(proposed.filter({ hasText: "Kim's words" })).toBeVisible();
    await expect(proposed.filter({ hasText: "Gus" })).toContainText("That phone proposes 179 more things.");
    await tap(ann, "Leave all 180 of that phone");
    await expect(proposed).toHaveCount(1);
    await expect(ann.getByText("170 proposals were decided before.")).toBeVisible();
    await tap(ann, "Take this");
    await expect(ann.locator(".large-words")).toHaveText("Kim's words");
  });
});
