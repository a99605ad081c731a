/** Somebody overboard: from every screen, with no signal, on every phone; and the other emergencies. */
import { answered, expect, type Page, test, type, watch } from "./app";
import { calm, row, startTrip } from "./notes";
import { alarm, call, control, cry, over, Receiver, since, way } from "./overboard";
import { cut, pass, reload, standing, within } from "./phone";
import { calc, tablesKept } from "./terminal";

/** The trip runs, so that the phone knows where it is, far from where currents are foretold; then the radio goes off. */
async function atSea(page: Page): Promise<Receiver> {
  await page.goto("/#/lines");
  await answered(page);
  const receiver = await Receiver.of(page);
  await startTrip(page);
  await receiver.at(41.25, -51.5);
  await cut(page);
  return receiver;
}

test("at sea two touches note it with place and time, one notes nothing, and the lock against wet touches is in the way of neither", async ({
  page,
}) => {
  const faults = watch(page);
  const receiver = await atSea(page);
  await test.step("one touch notes nothing: neither “No” nor time, and the list of emergencies is a touch away", async () => {
    for (const answer of ["No", undefined, "Another emergency"]) {
      await control(page).click();
      await calm(page);
      if (answer) await page.getByRole("button", { name: answer, exact: true }).click();
      else {
        // Whoever meant it may throw a ring first.
        await page.clock.fastForward(55_000);
        await expect(page.getByRole("alertdialog")).toBeVisible();
        await page.clock.fastForward(6_000);
      }
      await expect(page.getByRole("alertdialog")).toHaveCount(0);
    }
    await expect(page.getByRole("heading", { name: "Emergencies" })).toBeVisible();
    await page.goto("/#/notes");
    await expect(row(page, "Overboard")).toHaveCount(0);
    await expect(alarm(page)).toHaveCount(0);
  });
  await test.step("while it asks, the lock waits: the question does not stay under it, open to every drop", async () => {
    await page.goto("/#/lines");
    await calm(page);
    await page.locator(".overboard-button").click();
    await expect(page.getByRole("alertdialog")).toBeVisible();
    await page.getByRole("button", { name: "Wet lock", includeHidden: true }).click({ force: true });
    await expect(page.locator(".wet-lock")).toHaveCount(0);
    await calm(page);
    await page.locator(".overboard-ask .overboard-others").last().click();
    await calm(page);
    await page.getByRole("button", { name: "Wet lock" }).click();
    await expect(page.locator(".wet-lock")).toBeVisible();
  });
  await test.step("it works through the lock against wet touches, and ends it", async () => {
    await cry(page);
    await expect(page.locator(".wet-lock")).toHaveCount(0);
    await over(page, "It was a mistake");
  });
  await test.step("the way back goes on as the boat drifts off from where the first touch was", async () => {
    // The receiver is asked anew after a silence: what comes while it is asked is said again.
    await page.goto("/#/crew/radio");
    await expect(async () => {
      await receiver.at(41.25, -51.5);
      await expect(call(page)).toContainText("My position is 41°15.000′N", { timeout: 3000 });
    }).toPass();
    await page.goto("/#/pace");
    await control(page).click();
    await expect(page.getByRole("alertdialog")).toContainText("41°15.000′N 051°30.000′W");
    // The boat goes on between the touches: what the first one held counts.
    await pass(page, 4000);
    await receiver.at(41.2514, -51.4996);
    await page.getByRole("button", { name: "Yes: overboard" }).click();
    await expect(page.getByRole("heading", { name: "Overboard" })).toBeVisible();
    // By GeographicLib: 192.17° and 159.06 m, or 521.8 ft, from there back.
    await expect(way(page)).toContainText("192°");
    await expect(way(page)).toContainText(/520.ft/);
    await expect(since(page)).toContainText("in the water");
    // An old fix is told as old, and is better than none.
    await expect(page.getByText(/By a fix of \d\ss ago\./)).toBeVisible();
    await page.clock.fastForward(90_000);
    await expect(page.getByRole("alert").filter({ hasText: "the boat has moved since" })).toContainText("9");
    await expect(way(page)).toContainText("192°");
    // 217.04° and 1391.3 m, or 0.751 nm.
    await page.clock.fastForward(210_000);
    // The app asks its receiver anew after a long silence: what comes while it does is said again.
    await expect(async () => {
      await receiver.at(41.26, -51.49);
      await expect(way(page)).toContainText("217°", { timeout: 3000 });
    }).toPass();
    await expect(way(page)).toContainText("0.75 nm");
    await expect(since(page)).toContainText("5 min in the water");
    await expect(call(page)).toContainText("My position is 41°15.600′N 051°29.400′W.");
    await expect(call(page)).toContainText(
      /Person overboard, 5.min ago\. Look for them at 41°15\.000′N 051°30\.000′W\./,
    );
    await expect(call(page)).toContainText("Listening on channel 16.");
    // Who is alone because the skipper went over the side says the same; of another emergency it is no part.
    await page.goto("/#/help/fire");
    await expect(call(page)).not.toContainText("Person overboard");
    await page.goto("/#/help/alone");
    await expect(call(page)).toContainText(
      /Person overboard, 5.min ago\. Look for them at 41°15\.000′N 051°30\.000′W\./,
    );
    await page.goto("/#/overboard");
    await calm(page);
    await page.getByRole("button", { name: "Radio", exact: true }).click();
    await expect(page.getByRole("heading", { name: "Words for the radio" })).toBeInViewport();
    await page.evaluate(() => scrollTo(0, 0));
    // With the current not known the circle has grown.
    const within = async () => {
      const [, number, unit] = /within ([\d,.]+).(ft|nm)/.exec(await way(page).innerText()) ?? [];
      return Number(number?.replace(",", "")) * (unit === "nm" ? 1852 / 0.3048 : 1);
    };
    const before = await within();
    await page.clock.fastForward(600_000);
    await receiver.at(41.2601, -51.49);
    await expect.poll(within).toBeGreaterThan(before);
    await over(page, "Back aboard");
  });
  await test.step("the question says how old the place is that the touch has held", async () => {
    await page.goto("/#/lines");
    await receiver.at(41.2514, -51.4996);
    await page.clock.fastForward(240_000);
    await control(page).click();
    await expect(page.getByRole("alertdialog")).toContainText(/, a fix of 4.min ago\./);
  });
  expect(faults).toEqual([]);
});

test("with no signal each emergency has its page, and somebody overboard is told everywhere until it is over @keeps", async ({
  page,
}) => {
  await page.goto("/#/lines");
  await answered(page);
  await tablesKept(page);
  const place = { lat: (41.2 * Math.PI) / 180, lon: (-71.5 * Math.PI) / 180 };
  const streams = (times: number[]) =>
    calc<{ hours: { stream?: { set: number; value: number; doubt: number } }[] }>("moments", {
      moments: times.map((time) => ({ time, place })),
    }).hours.map(({ stream }) => {
      if (!stream) throw new Error("no current is foretold there");
      return stream;
    });
  const seconds = async () => (await page.evaluate(() => Date.now())) / 1000;
  // When it runs hardest within a tide: at neaps that is little.
  const start = await seconds();
  const later = Array.from({ length: 27 }, (_, k) => k * 1800);
  const runs = streams(later.map((by) => start + by + 600)).map(({ value }) => Math.abs(value));
  const hardest = Math.max(...runs);
  expect(hardest).toBeGreaterThan(0.1);
  await page.clock.fastForward((later[runs.indexOf(hardest)] ?? 0) * 1000);
  await page.waitForFunction(() => navigator.serviceWorker.controller);
  const receiver = await Receiver.of(page);
  await startTrip(page);
  await receiver.at(41.2, -71.5);
  await page.context().setOffline(true);
  await test.step("each emergency has its page, and the time of a tourniquet is kept", async () => {
    await page.goto("/#/help");
    await expect(page.locator("main .links a").nth(7)).toBeVisible();
    const names = await page.locator("main .links a").allInnerTexts();
    expect(names.length).toBeGreaterThanOrEqual(8);
    for (const name of [
      "Bleeding that will not stop",
      "A hook in a person",
      "Fire",
      "Cold, after the water",
      "Leaving the boat",
    ]) {
      await page.goto("/#/help");
      await calm(page);
      await page.getByRole("link", { name }).click();
      await expect(page.getByRole("heading", { name })).toBeVisible();
      expect(await page.locator(".help-steps li").count()).toBeGreaterThan(5);
      await expect(call(page)).toContainText("41°12.000′N");
      // Wherever one reads, the words for the radio are a tap away.
      await calm(page);
      await page.getByRole("button", { name: "Radio", exact: true }).click();
      await expect(page.getByRole("heading", { name: "Words for the radio" })).toBeInViewport();
    }
    // Also by the address that the others have.
    await page.goto("/#/help/overboard");
    await expect(page.getByRole("heading", { name: "Overboard" })).toBeVisible();
    await page.goto("/#/help/bleeding");
    await calm(page);
    await page.getByRole("button", { name: "Tourniquet is on" }).click();
    await expect(page.getByText(/Tourniquet on since \d\d:\d\d/).first()).toBeVisible();
  });
  await test.step("the current that is foretold there carries the place to look on, as the terminal reckons it", async () => {
    await cry(page);
    await page.clock.fastForward(600_000);
    await receiver.at(41.2, -71.5);
    const [stream] = streams([await seconds()]);
    if (!stream) throw new Error("no current is foretold there");
    const fix = { ...place, accuracy: 5 };
    const { drifted, likely } = calc<{ drifted: number; likely: { way: { bearing: number } } }>("overboard", {
      mark: fix,
      here: fix,
      since: 600,
      predicted: { set: stream.set, drift: Math.abs(stream.value), doubt: stream.doubt },
    });
    const said = page.getByText(/The current has carried them about/);
    await expect(said).toContainText("by the tide tables alone: nobody measured it");
    const [, number, unit] = /about ([\d,.]+).(ft|nm)/.exec(await said.innerText()) ?? [];
    const metres = Number(number?.replace(",", "")) * (unit === "nm" ? 1852 : 0.3048);
    // The prediction is up to a minute old, and read to 5 ft or a hundredth of a mile.
    expect(drifted).toBeGreaterThan(50);
    expect(Math.abs(metres - drifted)).toBeLessThan(10 + 0.05 * drifted);
    const shown = Number(/(\d{3})°/.exec(await way(page).innerText())?.[1]);
    const off = (shown - (likely.way.bearing * 180) / Math.PI + 540) % 360;
    expect(Math.abs(off - 180)).toBeLessThan(10);
    // On the page of who is alone the words send others on as the current does, and where that page is the first that is opened.
    const sentTo = async () => /Look for them at (\S+ \S+′W)/.exec(await call(page).innerText())?.[1];
    const before = await sentTo();
    expect(before).toMatch(/′W$/);
    await page.goto("/#/help/alone");
    await reload(page);
    await receiver.at(41.2, -71.5);
    await page.clock.fastForward(600_000);
    await receiver.at(41.2, -71.5);
    await expect(call(page)).toContainText(/2\d.min ago\. Look for them at \d/);
    await expect.poll(sentTo).not.toBe("41°12.000′N 071°30.000′W");
    expect(await sentTo()).not.toBe(before);
    await expect(page.getByText(/^Position by this phone, \d+.s old/)).toBeVisible();
    await page.goto("/#/overboard");
  });
  await test.step("it stands over every screen until it is over, through a restart, and can be taken back", async () => {
    await reload(page);
    await expect(since(page)).toBeVisible();
    await page.goto("/#/help/bleeding");
    await expect(page.getByText(/Tourniquet on since \d\d:\d\d/).first()).toBeVisible();
    for (const path of ["lines", "pace", "notes", "fish", "crew", "locker", "help/fire", "fish/rules"]) {
      await page.goto(`/#/${path}`);
      await expect(alarm(page), path).toContainText("Somebody is overboard");
      await expect(control(page), path).toBeVisible();
    }
    await alarm(page).getByRole("link").click();
    await over(page, "Back aboard");
    await page.goto("/#/notes");
    await expect(alarm(page)).toHaveCount(0);
    await expect(row(page, "Overboard")).toContainText("Back aboard");
  });
});

test("on a first visit that broke off, what the touch held stays on the screen until it can be noted", async ({
  page,
}) => {
  const rest = /\/assets\/after-[^/]*\.js$/;
  await page.route(rest, (route) => route.abort());
  await page.goto("/#/lines");
  await expect(page.getByText("This page did not load")).toBeVisible();
  await control(page).click();
  await calm(page);
  const question = page.getByRole("alertdialog");
  const moment = await question.getByText(/^The time of the touch is held: .* No place yet\.$/).innerText();
  await page.getByRole("button", { name: "Yes: overboard" }).click();
  await page.clock.fastForward(60_000);
  await expect(question).toContainText(moment);
  await expect(page.getByText("This page did not load").first()).toBeVisible();
});

/** Asks before what takes the case on has come, taps what is given, and lets it come. */
async function hasty(page: Page, ...taps: string[]): Promise<void> {
  let come = () => {};
  const coming = new Promise<void>((resolve) => {
    come = resolve;
  });
  await page.route(/\/assets\/after-[^/]*\.js$/, async (route) => {
    await coming;
    await route.continue();
  });
  await page.goto("/#/lines", { waitUntil: "commit" });
  await control(page).click();
  for (const tap of taps) {
    await calm(page);
    await page.locator(tap).click();
  }
  come();
}

test("meant twice before what takes it on has come, it is one case", async ({ page }) => {
  await hasty(page, ".overboard-yes", ".overboard-yes");
  await expect(since(page)).toBeVisible();
  await page.goto("/#/notes");
  await expect(row(page, "Overboard")).toHaveCount(1);
});

test("taken back before what takes it on has come, it is none", async ({ page }) => {
  await hasty(page, ".overboard-yes", ".overboard-others >> nth=-1");
  await answered(page);
  // Another is the only one.
  await cry(page);
  await page.goto("/#/notes");
  await expect(row(page, "Overboard")).toHaveCount(1);
});

test("a phone without a fix or in a wet pocket cries all the same", async ({ page }) => {
  await test.step("the call for help counts everybody, once somebody has said how many", async () => {
    await page.goto("/#/crew/radio");
    await expect(call(page)).toContainText("… people aboard");
    await expect(page.getByText("Count everybody, the skipper too.")).toBeVisible();
    await calm(page);
    const many = page.getByRole("group", { name: "How many are aboard?" });
    await type(many, "four");
    await expect(many.getByRole("alert")).toContainText("not a number. Still not told:");
    for (let i = 0; i < 4; i++) {
      await many.getByRole("button", { name: "more" }).click();
      await pass(page, 300);
    }
    await expect(call(page)).toContainText("4 people aboard");
    await expect(page.getByText("Count everybody, the skipper too.")).toHaveCount(0);
  });
  await test.step("without a fix it is noted all the same, and the first fix that comes soon after tells the place", async () => {
    await page.goto("/#/lines");
    await answered(page);
    await cry(page);
    await expect(
      page
        .getByRole("alert")
        .filter({ hasText: /position|wake/ })
        .first(),
    ).toBeVisible();
    const receiver = await Receiver.of(page);
    await receiver.at(41.25, -51.5);
    await receiver.at(41.2514, -51.4996);
    await expect(way(page)).toContainText("192°");
    await over(page, "Back aboard");
  });
  await test.step("a phone that starts anew in a wet pocket stays locked, and cries all the same", async () => {
    await page.goto("/#/lines");
    await answered(page);
    await calm(page);
    await page.getByRole("button", { name: "Wet lock" }).click();
    await reload(page);
    await expect(page.locator(".wet-lock")).toBeVisible();
    await expect(page.locator(".within")).toHaveAttribute("inert", "");
    await calm(page);
    const unlock = async () => {
      await page.getByRole("button", { name: "Unlock: first tap" }).click();
      await page.getByRole("button", { name: "Unlock: second tap" }).click();
      await expect(page.locator(".wet-lock")).toHaveCount(0);
    };
    await answered(page);
    await standing(page, async () => {
      await unlock();
      // Where the hand goes on tapping nothing is noted for a moment.
      await pass(page, 1_100);
      await page.locator(".fish-up").click();
      await pass(page, 200);
      await expect(page).toHaveURL(/lines$/);
      await page.locator(".fish-up").click();
      await within(page, 3_000, async () => /fish/.test(page.url()));
    });
    await page.goto("/#/lines");
    await calm(page);
    await page.getByRole("button", { name: "Wet lock" }).click();
    await calm(page);
    await standing(page, async () => {
      await unlock();
      // But whether somebody is overboard, and that they are.
      await page.locator(".overboard-button").click();
      await page.locator(".overboard-yes").click();
      await within(page, 3_000, () => page.locator(".overboard-since").isVisible());
    });
    await page.goto("/#/lines");
    await reload(page);
    await expect(page.locator(".bar")).toBeVisible();
    await expect(page.locator(".wet-lock")).toHaveCount(0);
  });
});
