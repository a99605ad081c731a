/** One boat, one trip: three phones over TLS of the boat's own authority, at sea and back, and everybody's notes in one book. */
import { readFileSync } from "node:fs";
import { expect, type Page, test } from "./app";
import { calm, closeTrip, comeAboard, exchangeNow, mark, row, startTrip, writeNote } from "./notes";
import { pass, phone, standing } from "./phone";
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

/** So long, by the page's own clock, until something is so: nothing that waits longer has a part in it. */
async function within(page: Page, ms: number, so: () => Promise<boolean>): Promise<void> {
  await standing(page, async () => {
    for (let gone = 0; gone < ms; gone += 50) {
      // What comes over the network needs the machine's time, and none of the page's.
      for (let tries = 0; tries < 40; tries++) if (await so()) return;
      await pass(page, 50);
    }
    expect(await so()).toBe(true);
  });
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
