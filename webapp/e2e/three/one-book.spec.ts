/** Everybody's notes in one book: told at once, never called sent before they are, and in the boat's open trip. */
import { readFileSync } from "node:fs";
import { calm, closeTrip, exchangeNow, mark, row, startTrip, writeNote } from "../notes";
import { cut, pass, within } from "../phone";
import { expect, notes, sending, tap, test, together, visit } from "./phones";

test("aboard, all note in one book and hear of it at once, and who is shut out hears no more", async ({
  three: { ann, ben, gus },
  boat,
}) => {
  await test.step("the first mark of a mate and of a guest goes into the boat's open trip", async () => {
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
  await test.step("aboard, a note is on the other phones before they would ask; who is shut out hears no more", async () => {
    for (const page of [ann, ben]) await notes(page);
    await writeNote(gus, "from the guest");
    for (const page of [ann, ben]) await within(page, 2000, () => row(page, "from the guest").isVisible());
    await writeNote(ann, "from the skipper");
    for (const page of [ben, gus]) await within(page, 2000, () => row(page, "from the skipper").isVisible());

    // The box was off for a while: with it again they hear as before.
    await boat.server.pause();
    await writeNote(ben, "while the box was off");
    await expect(sending(ben)).toContainText("1 change not sent");
    await boat.server.restart();
    await together([ben, ann, gus]);
    for (const page of [ann, gus]) await expect(row(page, "while the box was off")).toBeVisible();
    await writeNote(gus, "with the box again");
    for (const page of [ann, ben])
      await within(page, 2000, () => row(page, "with the box again").isVisible());

    await ann.goto("/#/enrol/phones");
    await ann.getByRole("link", { name: /Ben/ }).click();
    await tap(ann, "Shut this phone out");
    await expect(ann.getByText("Shut out", { exact: true })).toBeVisible();
    // The stream has ended, and the phone finds out why.
    await within(ben, 5000, () => ben.locator(".sending.open").isVisible());
    await writeNote(ben, "after that");
    await expect(sending(ben)).toContainText("1 change not sent");
    await writeNote(ann, "not for Ben");
    await within(gus, 2000, () => row(gus, "not for Ben").isVisible());
    await expect(row(ben, "not for Ben")).toHaveCount(0);
  });
});

test("a guest's phone calls nothing sent that the boat has not got, and brings what it noted meanwhile", async ({
  three: { ann, ben, gus },
}) => {
  await test.step("a guest who comes by the address to what is the crew's reads whose it is, and what to do instead", async () => {
    await gus.goto("/#/crew/change/leaving");
    await expect(gus.getByText("The skipper or a mate changes this list.")).toBeVisible();
    await expect(gus.locator("main input, main textarea")).toHaveCount(0);
    await calm(gus);
    await gus.getByRole("link", { name: "Before leaving" }).click();
    await expect(gus.getByRole("button", { name: "Drain plug" })).toBeVisible();
    for (const address of ["enrol/invite", "enrol/phones", "enrol/phone/nobody"]) {
      await gus.goto(`/#/${address}`);
      await expect(gus.getByText("Only the skipper’s phone lets others aboard"), address).toBeVisible();
      await expect(gus.locator("main button, main input"), address).toHaveCount(0);
    }
  });
  await test.step("a guest's phone calls nothing sent that the boat has not got, says why, and what to do", async () => {
    await notes(gus);
    await ann.locator("a.notes-trip").click();
    await calm(ann);
    await closeTrip(ann);
    // All are told, at once; who may open it again is the crew.
    await within(ben, 2000, () => ben.getByText("Ann closed", { exact: false }).isVisible());
    await within(gus, 2000, () => gus.getByText("Ann closed", { exact: false }).isVisible());
    await expect(gus.getByText("stays on this phone")).toBeVisible();
    await expect(gus.getByRole("button", { name: "Open it again" })).toHaveCount(0);
    await cut(gus);
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
    await expect(gus.getByText("The boat’s trip is closed")).toBeVisible();
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
  await test.step("a guest who was shut out is let into the trip again after it was closed, and brings what was noted meanwhile", async () => {
    // While the trip was closed it heard of nothing: that it is open it is told when it asks.
    await exchangeNow(gus);
    await notes(ann);
    await cut(gus);
    await writeNote(gus, "written at sea");
    await ann.locator("a.notes-trip").click();
    await calm(ann);
    await closeTrip(ann);
    await ann.goto("/#/enrol/phones");
    await ann.getByRole("link", { name: /Gus/ }).click();
    await tap(ann, "Shut this phone out");
    await expect(ann.getByText("To let it in again")).toHaveCount(0);
    await gus.context().setOffline(false);
    await notes(gus);
    await within(gus, 5000, () => gus.locator(".sending.open").isVisible());
    await expect(sending(gus)).toContainText("1 change not sent");

    await ann.goto("/#/enrol/invite");
    await ann.getByRole("radio", { name: "guest" }).check();
    await expect(ann.getByLabel("Which trip?")).toContainText("closed");
    await tap(ann, "Make the invitation");
    const code = await ann.locator(".code").innerText();
    await gus.goto("/#/enrol");
    await gus.getByLabel("A name for this phone").fill("Gus");
    await gus.getByLabel("Code", { exact: true }).fill(code);
    await tap(gus, "Come aboard");
    await expect(gus.getByText("This phone is “Gus”, guest.")).toBeVisible();
    await exchangeNow(gus);
    await expect(sending(gus)).toContainText("All sent");
    await exchangeNow(ann);
    await ann.goto("/#/notes/past");
    await ann.locator('a[href*="notes/trip/"]').first().click();
    await expect(row(ann, "written at sea")).toContainText("Gus");
  });
});

test("with the box off and on again the phone knows what is not sent, and how wrong its clock is", async ({
  aboard,
  boat,
}) => {
  const ann = await aboard("Ann", "skipper");
  await startTrip(ann);
  await expect(sending(ann)).toContainText("All sent");
  await test.step("the box that is on again is found as soon as somebody looks at the notes, and not asked with every look", async () => {
    await boat.server.pause();
    await writeNote(ann, "while the box was off");
    await expect(sending(ann)).toContainText("1 change not sent");
    // It waits longer and longer until it asks by itself.
    for (let wait = 4000; wait < 200_000; wait *= 2) {
      const failed = ann.waitForEvent("requestfailed", (one) => one.url().endsWith("/api/exchange"));
      await pass(ann, wait);
      await failed;
    }
    let asked = 0;
    ann.on("request", (one) => {
      if (one.url().endsWith("/api/exchange")) asked++;
    });
    for (let i = 0; i < 20; i++) {
      await ann.goto("/#/lines");
      await ann.goto("/#/notes");
      await pass(ann, 100);
    }
    await pass(ann, 4000);
    await expect.poll(() => asked).toBeGreaterThan(0);
    expect(asked).toBeLessThan(6);
    await visit(ann, "lines");
    await boat.server.restart();
    await ann.goto("/#/notes");
    await expect(sending(ann)).toContainText("All sent");
    const before = asked;
    for (let i = 0; i < 20; i++) await ann.evaluate(() => dispatchEvent(new Event("online")));
    await pass(ann, 4000);
    await ann.goto("/#/notes/unsent");
    await expect(ann.getByText("Exchanging")).toHaveCount(0);
    expect(asked - before).toBeLessThan(4);
    expect(asked).toBeGreaterThan(before);
  });
  await test.step("what is not sent takes no room at the foot that a tap on a form would miss by", async () => {
    await notes(ann);
    await mark(ann);
    await calm(ann);
    await tap(ann, "Done");
    await exchangeNow(ann);
    await boat.server.pause();
    await row(ann, "Hookup").click();
    await calm(ann);
    await tap(ann, "Change it");
    // Whatever it takes it takes from the page above, where Done is.
    const foot = ann.locator(".page-back");
    const height = () => foot.evaluate((nav) => Math.round(nav.getBoundingClientRect().height));
    const whose = ann.getByLabel("Whose");
    await whose.fill("Max");
    const before = await height();
    await whose.blur();
    await expect(foot.getByText("1 change not sent")).toBeVisible();
    expect(await height()).toBe(before);
  });
  await test.step("Notes says that the phone's clock is far off the server's", async () => {
    await boat.server.restart();
    const told = ann.getByText("This phone’s clock is");
    await exchangeNow(ann);
    await notes(ann);
    await expect(told).toHaveCount(0);
    await ann.clock.setSystemTime(Date.now() + 20 * 60_000);
    await exchangeNow(ann);
    await notes(ann);
    await expect(told).toContainText("20 min ahead");
  });
});
