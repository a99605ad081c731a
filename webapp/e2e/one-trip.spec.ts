/** One boat, one trip: three phones over TLS of the boat's own authority, at sea and back, and everybody's notes in one book. */
import { readFileSync } from "node:fs";
import { expect, type Page, test } from "./app";
import { calm, closeTrip, comeAboard, exchangeNow, mark, row, startTrip, writeNote } from "./notes";
import { phone, within } from "./phone";
import { type SecureBoat, secureBoat } from "./tls";

let boat: SecureBoat;
test.beforeEach(async () => {
  boat = await secureBoat();
});
test.afterEach(() => boat.end());

async function aboard(name: string, role: string, ...more: string[]): Promise<Page> {
  const page = await phone(boat.browser, { baseURL: boat.server.url });
  await comeAboard(page, boat.server, name, boat.server.invite(role, ...more));
  return page;
}

/** A guest of the trip that this phone notes in. */
async function guestOf(host: Page, name: string): Promise<Page> {
  await host.goto("/#/notes");
  const [, id = ""] =
    /trip\/(.*)$/.exec((await host.locator("a.notes-trip").getAttribute("href")) ?? "") ?? [];
  return aboard(name, "guest", "--trip", id);
}

const sending = (page: Page) => page.locator(".sending");
const notes = async (page: Page): Promise<void> => {
  await page.goto("/#/notes");
  await calm(page);
};
const tap = async (page: Page, name: string): Promise<void> => {
  await calm(page);
  await page.getByRole("button", { name }).click();
};

/** Skipper, mate and guest, all in the skipper's trip. */
async function three(): Promise<{ ann: Page; ben: Page; gus: Page }> {
  const ann = await aboard("Ann", "skipper");
  await startTrip(ann);
  await writeNote(ann, "first of the trip");
  await expect(sending(ann)).toContainText("All sent");
  const ben = await aboard("Ben", "mate");
  const gus = await guestOf(ann, "Gus");
  for (const page of [ben, gus]) {
    await notes(page);
    await expect(row(page, "first of the trip")).toBeVisible();
  }
  return { ann, ben, gus };
}

test("aboard, a note is on the other phones before they would ask; who is shut out hears no more", async () => {
  const { ann, ben, gus } = await three();
  await writeNote(gus, "from the guest");
  for (const page of [ann, ben]) await within(page, 2000, () => row(page, "from the guest").isVisible());
  await writeNote(ann, "from the skipper");
  for (const page of [ben, gus]) await within(page, 2000, () => row(page, "from the skipper").isVisible());

  await ann.goto("/#/enrol/phones");
  await ann.getByRole("link", { name: /Ben/ }).click();
  await tap(ann, "Shut this phone out");
  await expect(ann.getByText("shut out", { exact: true })).toBeVisible();
  // The stream has ended, and the phone finds out why.
  await within(ben, 5000, () => ben.locator(".sending.open").isVisible());
  await writeNote(ben, "after that");
  await expect(sending(ben)).toContainText("1 not sent");
  await writeNote(ann, "not for Ben");
  await within(gus, 2000, () => row(gus, "not for Ben").isVisible());
  await expect(row(ben, "not for Ben")).toHaveCount(0);
});

test("a guest's phone calls nothing sent that the boat has not got, says why, and what to do", async () => {
  const { ann, ben, gus } = await three();
  await ann.locator("a.notes-trip").click();
  await calm(ann);
  await closeTrip(ann);
  // All are told, at once; who may open it again is the crew.
  await within(ben, 2000, () => ben.getByText("Ann closed", { exact: false }).isVisible());
  await within(gus, 2000, () => gus.getByText("Ann closed", { exact: false }).isVisible());
  await expect(gus.getByText("stays on this phone")).toBeVisible();
  await expect(gus.getByRole("button", { name: "Open it again" })).toHaveCount(0);
  await gus.context().setOffline(true);
  await mark(gus);
  await notes(gus);
  await expect(sending(gus)).toContainText("2 held back");
  await gus.context().setOffline(false);
  await exchangeNow(gus);
  await expect(sending(gus)).toContainText("2 held back");
  await expect(sending(gus)).not.toContainText("All sent");

  // The skipper sees that this phone keeps something back.
  await ann.goto("/#/enrol/phones");
  await expect(ann.getByRole("link", { name: /Gus/ })).toContainText("2 held back");

  await gus.goto("/#/notes/unsent");
  // What is counted is named, and a tap away.
  await expect(gus.getByRole("heading", { name: "What waits here" })).toBeVisible();
  await expect(row(gus, "Hookup")).toHaveCount(1);
  await expect(row(gus, "Trip")).toHaveCount(1);
  await expect(gus.getByText("takes from it only notes of the boat’s trip")).toBeVisible();
  await expect(gus.getByText("The boat’s trip was closed")).toBeVisible();
  await expect(gus.getByText("Not in the file: the photos")).toBeVisible();
  const [file] = await Promise.all([gus.waitForEvent("download"), tap(gus, "Save it to a file")]);
  const saved = JSON.parse(readFileSync(await file.path(), "utf8"));
  expect(saved.entries.map(({ kind }: { kind: string }) => kind).sort()).toEqual(["mark", "trip"]);
  expect(saved.without.join()).toContain("photos");
  await tap(gus, "Note them in the boat’s trip");
  await expect(gus.getByRole("main").getByText("All sent")).toBeVisible();
  await expect(gus.getByText("is on the boat’s server too")).toBeVisible();

  await tap(ben, "Open it again");
  await expect(row(ben, "Hookup")).toContainText("Gus");
  await notes(ann);
  await expect(row(ann, "Hookup")).toContainText("Gus");
  await ann.goto("/#/enrol/phones");
  await expect(ann.getByRole("link", { name: /Gus/ })).not.toContainText("held back");
});

test("two trips opened apart at sea are asked about once and become one, also for a third who knew nothing of it", async () => {
  const ann = await aboard("Ann", "skipper");
  const ben = await aboard("Ben", "mate");
  for (const page of [ann, ben]) await page.context().setOffline(true);
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
  await cy.context().setOffline(true);
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

test("after a night and a day a mark begins another trip, and the old one is asked to be closed, by the crew", async () => {
  const ann = await aboard("Ann", "skipper");
  const ben = await aboard("Ben", "mate");
  await hour([ann, ben], -20);
  await startTrip(ann);
  await writeNote(ann, "yesterday");
  await exchangeNow(ann);
  await exchangeNow(ben);
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
    await page.context().setOffline(true);
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

test("two trips of one outing are asked about days later too, and the one they become goes on if somebody says so", async () => {
  const ann = await aboard("Ann", "skipper");
  const ben = await aboard("Ben", "mate");
  await hour([ann, ben], -60);
  for (const [page, words] of [
    [ann, "Ann at sea"],
    [ben, "Ben at sea"],
  ] as const) {
    await page.context().setOffline(true);
    await startTrip(page);
    await writeNote(page, words);
  }
  await hour([ann, ben], 0);
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

test("the first mark of a mate and of a guest goes into the boat's open trip", async () => {
  const ann = await aboard("Ann", "skipper");
  await startTrip(ann);
  await expect(sending(ann)).toContainText("All sent");
  const ben = await aboard("Ben", "mate");
  const gus = await guestOf(ann, "Gus");
  for (const page of [ben, gus]) {
    await notes(page);
    await mark(page);
    await notes(page);
    await expect(sending(page)).toContainText("All sent");
  }
  for (const page of [ann, ben, gus]) {
    await notes(page);
    await expect(row(page, "Hookup")).toHaveCount(2);
    await page.goto("/#/notes/past");
    await expect(page.locator(".links a")).toHaveCount(1);
    await expect(page.locator(".links a")).toContainText(page === ann ? "this phone" : "Ann");
  }
});

test("what a guest would have another's note say is proposed, and taken with one tap", async () => {
  const { ann, ben, gus } = await three();
  await gus.context().setOffline(true);
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

test("however much one guest proposes, another's proposal is seen beside it, and all of one is left with a tap", async () => {
  const { ann, gus } = await three();
  const kim = await guestOf(ann, "Kim");
  const [, note = ""] =
    /record\/(.*)$/.exec((await row(gus, "first of the trip").getAttribute("href")) ?? "") ?? [];
  await gus.evaluate(async () => {
    const asked = (body: object) =>
      fetch("/api/exchange", {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify({ version: 1, ...body }),
      }).then((answer) => answer.json());
    const { entries } = await asked({ entries: [] });
    const { record, trip } = entries.find(({ kind }: { kind: string }) => kind === "note");
    const many = Array.from({ length: 180 }, (_, i) => ({
      ...{ id: `01997c3e-9b2a-7c41-8f0e-${String(i).padStart(12, "0")}`, record: crypto.randomUUID() },
      ...{ kind: "proposal", trip, prev: [], at: 1, n: 1000 + i },
      set: { of: record, says: { text: `flood ${i}` } },
    }));
    const { refused } = await asked({ entries: many });
    if (refused.length > 0) throw new Error(JSON.stringify(refused[0]));
  });
  await notes(kim);
  await row(kim, "first of the trip").click();
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

test("what is taken of a proposal is what was read, here and where another version of it crosses", async () => {
  const { ann, ben, gus } = await three();
  await propose(gus, "second");
  const proposed = (page: Page) => page.locator(".notice.several");
  for (const page of [ann, ben]) {
    await notes(page);
    await row(page, "first of the trip").click();
    await expect(proposed(page)).toContainText("second");
  }
  await ben.context().setOffline(true);
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

test("a guest proposes to the plan of the trip, and the crew takes it on the trip's page", async () => {
  const { ann, ben, gus } = await three();
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

test("a guest's stroke through another's note is proposed, and its history tells that one left it and another took it", async () => {
  const { ann, ben, gus } = await three();
  await row(gus, "first of the trip").click();
  await tap(gus, "Strike it out");
  const undo = gus.locator(".notices .notice").filter({ hasText: "Undo" });
  await expect(undo).toContainText("Proposed");
  await undo.getByRole("button", { name: "Undo" }).click();
  await expect(gus.getByText("Proposed by")).toHaveCount(0);
  await tap(gus, "Strike it out");
  await expect(gus.getByText("The crew sees this")).toBeVisible();
  await exchangeNow(gus);
  await expect(sending(gus)).toContainText("All sent");
  for (const page of [ann, ben]) {
    await notes(page);
    await row(page, "first of the trip").click();
    await expect(page.getByText("Proposed by Gus")).toBeVisible();
    await page.context().setOffline(true);
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
  await row(ben, "first of the trip").click();
  await expect(ben.locator(".history li").filter({ hasText: "Left what Gus proposed" })).toContainText(
    "this phone",
  );
  await expect(ben.locator(".history li").filter({ hasText: "Took what Gus proposed" })).toContainText("Ann");
});

test("Notes says that the phone's clock is far off the server's", async () => {
  const ann = await aboard("Ann", "skipper");
  await notes(ann);
  const told = ann.getByText("This phone’s clock is");
  await exchangeNow(ann);
  await notes(ann);
  await expect(told).toHaveCount(0);
  await ann.clock.setSystemTime(Date.now() + 20 * 60_000);
  await exchangeNow(ann);
  await notes(ann);
  await expect(told).toContainText("20 min ahead");
});

test("a touch that one thumb noted at a depth nobody set moves no other phone's rods until the crew takes it", async () => {
  const { ann, gus } = await three();
  await gus.goto("/#/notes/touch");
  await calm(gus);
  await gus.locator(".links button").first().click();
  await gus.goto("/#/lines/touches");
  await expect(gus.locator("main")).toContainText("Learned from: this phone");
  await ann.goto("/#/lines/touches");
  await expect(ann.getByText("a guest. It moves no line here until")).toBeVisible();
  await expect(ann.locator("main")).not.toContainText("Learned from");
  await tap(ann, "The depth was so: take it");
  await expect(ann.locator("main")).toContainText("Learned from: Gus");
  await expect(ann.getByText("a guest. It moves no line here until")).toHaveCount(0);
});

test("of two hookups a fish goes with the one it is on", async () => {
  const ann = await aboard("Ann", "skipper");
  await startTrip(ann);
  for (const place of [1, 2]) {
    await mark(ann);
    await ann.getByRole("radio", { name: new RegExp(`^${place} `) }).check();
    await calm(ann);
    await tap(ann, "Done");
  }
  await ann.goto("/#/fish");
  await tap(ann, "Fish up");
  const asked = ann.getByRole("group", { name: "Several are hooked. Which one is this?" });
  await expect(asked.getByRole("radio")).toHaveCount(2);
  await asked.getByRole("radio", { name: /^1 / }).check();
  await tap(ann, "It got off");
  await notes(ann);
  await expect(row(ann, "Got off")).toHaveCount(1);
  await expect(row(ann, "Got off")).toContainText(/1 /);
});
