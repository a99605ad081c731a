/** A fish from the water to the slush, or back: on one phone, with no signal. */
import { answered, expect, type Locator, type Page, test, type, watch } from "./app";
import { chooseWaters, lookUp, measured, peopleAboard, tap } from "./fish";
import { calm, givePhoto, mark, row, startTrip } from "./notes";
import { cut, pass, quiet, reload, serviceWorkers, standing } from "./phone";
import { hold } from "./poses";

let faults: string[] = [];

/** Everything here is done with the radio off; where the phone keeps the app, from its start on. */
test.beforeEach(async ({ page }) => {
  faults = watch(page);
  await page.goto("/#/lines");
  await answered(page);
  if (serviceWorkers() === "block") return cut(page);
  await expect.poll(() => page.evaluate(() => Boolean(navigator.serviceWorker.controller))).toBe(true);
  await page.context().setOffline(true);
  await reload(page);
  await answered(page);
});

test.afterEach(() => {
  expect(faults).toEqual([]);
});

const verdict = (page: Page) => page.locator(".fish-verdict");
const stop = (page: Page) => page.locator(".fish-stop");
const forPerson = async (page: Page, name: string) => {
  await calm(page);
  await page.getByRole("button", { name: new RegExp(`^${name}`) }).click();
};
const caution = (page: Page) => page.getByText("Check the current local rules").first();

test("a day’s fish: kept, let go, taken back and got off", async ({ page }) => {
  await lookUp(page);
  await startTrip(page);

  await test.step("keep: judged, bled, in the slush, and noted", async () => {
    await page.goto("/#/notes");
    await mark(page);
    await measured(page, "29.5");
    await expect(verdict(page)).toContainText("May be kept");
    // Who has said that it was looked up today is not told to do so any more.
    await expect(caution(page)).toHaveCount(0);
    await expect(page.getByText("Looked up today. Local rules may be tighter")).toBeVisible();
    await tap(page, "Keep it");
    await expect(page.getByRole("heading", { name: "Bleed it" })).toBeVisible();
    // Nobody has said how many fish: no bag is full because of that.
    await expect(page.getByRole("heading", { name: "How many people fish today?" })).toBeVisible();
    await expect(stop(page)).toHaveCount(0);
    await tap(page, "2");
    await expect(page.getByRole("heading", { name: "How many people fish today?" })).toHaveCount(0);
    await tap(page, "Cut made");
    await expect(page.getByText(/Bleeding for [1-9]\d?\ss/)).toBeVisible();
    await expect(page.getByText("A sound cannot come from a locked phone")).toBeVisible();
    await tap(page, "Next");
    await expect(page.getByText(/Thickest part at 40.°F about \d\sh/)).toBeVisible();
    await tap(page, "In the slush now");
    await expect(page.getByText(/In the slush for [1-9]\d?\ss/)).toBeVisible();
    await expect(page.getByText("Very likely there in another")).toBeVisible();
    await tap(page, "Done");
    await page.goto("/#/notes");
    // The hookup that was marked is this fish: there is one record, not two.
    await expect(row(page, "Hookup")).toHaveCount(1);
    await expect(row(page, "Hookup")).toContainText(/Striped bass, 29\.5.in, Kept/);
    await row(page, "Hookup").click();
    await expect(page.getByText(/^In the slush: \d\d:\d\d$/)).toBeVisible();
  });

  await test.step("over the slot: too long by a little, measured again, and still let go", async () => {
    await measured(page, "31.1");
    await expect(verdict(page)).toContainText("Let it go");
    await expect(verdict(page)).toContainText(/Too long by 0\.1.in: less than 31.in/);
    await expect(page.getByRole("button", { name: "Keep it" })).toHaveCount(0);
    await tap(page, "Measure again");
    await calm(page);
    // Just the upper length: the sources differ, so it goes back.
    await type(page.getByRole("group", { name: "Total length" }), "31");
    await tap(page, "Next");
    await expect(verdict(page)).toContainText(/just 31.in goes back too/);
    await expect(page.getByText("Measure again.")).toBeVisible();
    await expect(page.getByText("Looked up today. Local rules may be tighter")).toBeVisible();
    await tap(page, "Let it go");
    await expect(page.getByText("No fingers in gills or eyes.")).toBeVisible();
    await tap(page, "It swam off");
    await page.goto("/#/notes");
    await expect(row(page, "Hookup").first()).toContainText(/Striped bass, 31.in, Let go/);
  });

  await test.step("keep is undone with one tap, and a fish that got off is noted as that", async () => {
    await measured(page, "29");
    await tap(page, "Keep it");
    await tap(page, "Undo");
    await expect(verdict(page)).toContainText("May be kept");
    await page.goto("/#/notes");
    await expect(row(page, "Hookup").first()).toContainText(/Striped bass, 29.in/);
    await expect(row(page, "Hookup").first()).not.toContainText("Kept");
    await page.goto("/#/fish");
    await tap(page, "Fish up");
    await tap(page, "It got off");
    await page.goto("/#/notes");
    await expect(row(page, "Got off")).toHaveCount(1);
  });

  await test.step("a slow double tap on Next decides nothing about the fish", async () => {
    for (const [length, decides] of [
      ["31", "Let it go"],
      ["29", "Keep it"],
    ] as const) {
      await measured(page, length);
      // Back to the page before, and on again: the two are tapped on one spot.
      await tap(page, "Back");
      await calm(page);
      const next = page.getByRole("button", { name: "Next", exact: true });
      const { x, y, width, height } = (await next.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
      const button = page.getByRole("button", { name: decides, exact: true });
      await standing(page, async () => {
        await next.click();
        await pass(page, 100);
        await expect(button).toBeVisible();
        await pass(page, 800);
        await page.mouse.click(x + width / 2, y + height / 2);
        // It is seen, too, that it cannot be tapped yet.
        await expect(button).toBeDisabled();
      });
      await expect(page.getByRole("heading", { name: "May we keep it?" })).toBeVisible();
      await tap(page, decides);
      await expect(page.getByRole("heading", { name: "May we keep it?" })).toHaveCount(0);
    }
  });
});

test("a fish begins a trip, and its photo is shown with it", async ({ page }) => {
  await test.step("where no trip runs a fish that is let go begins one, and is noted; what was no fish is struck out", async () => {
    await page.goto("/#/notes");
    await expect(page.getByText("Mark and the other buttons begin one by themselves.")).toBeVisible();
    await lookUp(page);
    await measured(page, "20");
    await tap(page, "Let it go");
    await tap(page, "Undo");
    await expect(verdict(page)).toContainText("Let it go");
    await page.goto("/#/notes");
    await expect(row(page, "Hookup")).toHaveCount(1);
    await expect(row(page, "Hookup")).not.toContainText("Let go");
    await page.goto("/#/fish");
    await page.getByRole("link", { name: /Go on/ }).click();
    await tap(page, "Let it go");
    await tap(page, "It swam off");
    await page.goto("/#/notes");
    await expect(page.getByText("No trip runs")).toHaveCount(0);
    await expect(row(page, "Hookup")).toHaveCount(1);
    await expect(row(page, "Hookup")).toContainText(/Striped bass, 20.in, Let go/);
    // What was no fish is struck out, legible, as a hookup is.
    await page.goto("/#/fish");
    await tap(page, "Fish up");
    await tap(page, "No fish");
    await page.goto("/#/notes");
    await expect(row(page, "Struck out")).toHaveCount(1);
  });

  await test.step("a photo of a fish in hand is shown with its hookup", async () => {
    await page.goto("/#/notes");
    await mark(page);
    await pass(page, 120_000);
    await page.goto("/#/notes");
    await mark(page);
    await page.goto("/#/fish");
    await expect(page.getByText("No fish in hand.")).toBeVisible();
    await tap(page, "Fish up");
    await tap(page, "A photo of it");
    await givePhoto(page, "silver");
    // Back where the fish is.
    await expect(page.getByRole("heading", { name: "Land it" })).toBeVisible();
    await expect(page.getByRole("button", { name: /A photo of it\s*1 photo/ })).toBeVisible();
    await page.goto("/#/notes");
    await expect(row(page, "Hookup").first().locator("img")).toBeVisible();
    await expect(row(page, "Hookup").nth(1)).toBeVisible();
    await expect(row(page, "Hookup").locator("img")).toHaveCount(1);
    await expect(row(page, "Photo")).toHaveCount(0);
  });
});

test("whose fish it is", async ({ page }) => {
  await lookUp(page);
  await startTrip(page);

  await test.step("a slow double tap on Next does not decide it, nor for the master", async () => {
    await measured(page, "29");
    const next = page.getByRole("button", { name: "Next", exact: true });
    const decides = async (button: Locator, kind: string) => {
      await page.goto("/#/fish");
      await calm(page);
      await page.getByRole("link", { name: /Go on/ }).click();
      await tap(page, "Back");
      await calm(page);
      await page.getByRole("radio", { name: kind }).check();
      await calm(page);
      await standing(page, async () => {
        await next.click();
        await pass(page, 100);
        await quiet(page);
        await pass(page, 700);
        await expect(button).toBeVisible();
        await expect(button).toBeDisabled();
        await pass(page, 600);
        await expect(button).toBeEnabled();
      });
    };
    await decides(page.getByRole("button", { name: "The master says: keep" }), "Bluefish");
    await peopleAboard(page, "Ann", "Ben");
    await decides(page.getByRole("button", { name: /^Ann/ }), "Striped bass");
  });

  await test.step("bag full: whose fish it is is asked, and the stop is told to whoever it concerns", async () => {
    await page.goto("/#/fish");
    await expect(page.getByText("All aboard together: 0 kept, 2 more")).toBeVisible();
    await page.getByRole("link", { name: /Go on/ }).click();
    await forPerson(page, "Ann");
    await expect(stop(page)).toHaveText(/Stop: Ann’s bag is full.*Their next striped bass goes back/s);
    await measured(page, "30");
    await expect(page.getByRole("button", { name: /^Ann bag full/ })).toBeDisabled();
    await forPerson(page, "Ben");
    await expect(stop(page)).toContainText("Stop: the boat’s bag is full");

    await measured(page, "28.5");
    await expect(verdict(page)).toContainText("The boat’s bag is full.");
    await expect(page.getByRole("button", { name: /^(Ann|Ben|Keep it)/ })).toHaveCount(0);
    await page.goto("/#/fish");
    await expect(stop(page)).toContainText("Stop: the boat’s bag is full");
    await expect(page.getByText("All aboard together: 2 kept, 0 more")).toBeVisible();
    // With another alarm it is one tap away, and comes round again.
    await page.goto("/#/lines/rise");
    await calm(page);
    await page.getByRole("button", { name: "Still" }).click();
    await pass(page, 1200);
    await type(page.getByRole("group", { name: "Depth now" }), "38");
    await expect(page.getByText("Rise ahead")).toBeVisible();
    await page.goto("/#/fish");
    const alarm = page.locator(".told-area .alarm");
    await expect(alarm).toHaveCount(1);
    await expect(alarm).toContainText("Rise ahead");
    await tap(page, "1 of 2. Next: Stop: striped bass");
    await expect(alarm).toHaveCount(1);
    await expect(stop(page)).toContainText("Stop: the boat’s bag is full");
    // In sight too where the words alone are more than a screen of large print has for them.
    await hold(page, "letters twice as large");
    await expect(page.getByRole("button", { name: "2 of 2. Next: Rise ahead" })).toBeInViewport({ ratio: 1 });
    await hold(page, "small phone");
    await tap(page, "2 of 2. Next: Rise ahead");
    await tap(page, "Noted");
    await expect(stop(page)).toBeVisible();
    // Under the wet lock too.
    await tap(page, "Wet lock");
    await expect(page.locator(".wet-lock").getByRole("alert")).toContainText("Stop: the boat’s bag is full");
    await expect(page.locator(".wet-lock").getByRole("alert")).toBeInViewport({ ratio: 1 });
    await page.getByRole("button", { name: "Unlock: first tap" }).click();
    await page.getByRole("button", { name: "Unlock: second tap" }).click();
    // What was kept by mistake is undone in the notes, and the bag follows.
    await page.goto("/#/notes");
    await row(page, "Hookup").filter({ hasText: "Ben" }).click();
    await tap(page, "Strike it out");
    await page.goto("/#/fish");
    await expect(stop(page)).toContainText("Stop: Ann’s bag is full");
    await expect(page.getByText("All aboard together: 1 kept, 1 more")).toBeVisible();
  });
});

test("with no signal from its start on, and through being started anew @keeps", async ({ page }) => {
  await test.step("on a phone that knows nothing yet all of it works, is counted and noted", async () => {
    await page.goto("/#/fish");
    await expect(page.getByRole("link", { name: "Choose the waters" })).toBeVisible();
    await tap(page, "Fish up");
    await tap(page, "Next");
    await calm(page);
    await type(page.getByRole("group", { name: "Total length" }), "28");
    await tap(page, "Next");
    // Nothing is judged before one has said where.
    await expect(verdict(page)).toHaveCount(0);
    await page.getByRole("radio", { name: "Chesapeake Bay" }).click();
    // By a rule of years ago nothing is decided; what it said is told.
    await expect(verdict(page)).toContainText("Checked 2024-01: look it up today");
    await expect(verdict(page)).toContainText("Too long by 4");
    await page.goto("/#/fish");
    await lookUp(page);
    await page.goto("/#/fish");
    await page.getByRole("link", { name: /Go on/ }).click();
    await expect(verdict(page)).toContainText("May be kept");
    await tap(page, "Keep it");
    await tap(page, "Next");
    await tap(page, "In the slush now");
    await tap(page, "Done");
    await reload(page);
    await expect(page.getByText("1 kept, say how many people fish")).toBeVisible();
    await expect(page.getByText(/In the slush for/)).toBeVisible();
    await page.goto("/#/notes");
    await expect(row(page, "Hookup")).toContainText(/Striped bass, 28.in, Kept/);
  });

  await test.step("release: unmeasured, in the water, with the time out of it and the warm water told", async () => {
    await page.goto("/#/locker/water");
    await calm(page);
    await type(page.getByRole("group", { name: "Temperature" }), "78");
    await page.goto("/#/fish");
    await tap(page, "Fish up");
    await tap(page, "Next");
    await expect(page.getByRole("button", { name: "Next" })).toBeDisabled();
    await tap(page, "Out of the water now");
    await expect(page.getByText(/Out of the water for [1-9]\d?\ss/)).toBeVisible();
    await tap(page, "Let it go");
    await expect(page.getByText(/Warm water: 78.°F/)).toBeVisible();
    await tap(page, "Back in the water");
    const tick = page.getByRole("button", { name: "Wet hands" });
    await tick.click();
    await expect(tick).toHaveAttribute("aria-pressed", "true");
    await reload(page);
    await expect(tick).toHaveAttribute("aria-pressed", "true");
    await tap(page, "It swam off");
    await expect(page.getByText("No fish in hand.")).toBeVisible();
  });

  await test.step("how many fish is asked before a bag is full, and answered where it is asked", async () => {
    await measured(page, "30");
    await expect(verdict(page)).toContainText("How many people fish?");
    await expect(page.getByRole("button", { name: "Keep it" })).toHaveCount(0);
    await tap(page, "1");
    await expect(verdict(page)).toContainText("The bag is full.");
    await reload(page);
    await expect(verdict(page)).toContainText("The bag is full.");
    // One more came along: it can be told otherwise.
    await page.goto("/#/fish");
    await expect(stop(page)).toContainText("Stop: the bag is full");
    await tap(page, "1 person fishes today");
    await tap(page, "2");
    await expect(stop(page)).toHaveCount(0);
    await expect(page.getByText(/1 kept, 1 more/)).toBeVisible();
    await page.getByRole("link", { name: /Go on/ }).click();
    await tap(page, "Keep it");
    await expect(stop(page)).toContainText("Stop: the bag is full");
  });
});

test("rules count once somebody has looked them up, and the skipper changes them", async ({ page }) => {
  const asked = page.locator(".check", { hasText: "Rules of size and bag" });

  await test.step("ready for sea asks to look up the rules ashore", async () => {
    await page.goto("/#/locker/ready");
    await expect(asked).toContainText("Look them up ashore, before you go: no waters are chosen.");
    await calm(page);
    await asked.getByRole("button", { name: "To the rules" }).click();
    await expect(page.getByRole("heading", { name: "Rules of size and bag" })).toBeVisible();
    await chooseWaters(page);
    await page.goto("/#/locker/ready");
    await expect(asked).toContainText("before you go: a rule is out of date.");
  });

  await test.step("a rule of years ago decides nothing until somebody has looked it up", async () => {
    await page.goto("/#/fish/rules");
    await expect(page.locator(".aged")).toContainText("Checked 2024-01: look it up today");
    await measured(page, "29.5");
    await expect(verdict(page)).toContainText("Checked 2024-01: look it up today");
    await expect(verdict(page)).toContainText("That old rule said: may be kept.");
    await expect(verdict(page)).toContainText("Your state sets its own rules");
    await expect(page.getByRole("button", { name: "Keep it" })).toHaveCount(0);
    await expect(caution(page)).toContainText("defaults of 2024-01");
    await tap(page, "I looked: it still holds");
    await expect(verdict(page)).toContainText("May be kept");
    await expect(verdict(page)).toContainText("Your state sets its own rules");
    await expect(caution(page)).toHaveCount(0);
    await tap(page, "Undo");
    await expect(verdict(page)).toContainText("look it up today");
    await expect(caution(page)).toContainText("defaults of 2024-01");
    // The master may know better.
    await tap(page, "The master says: keep");
    await expect(page.getByRole("heading", { name: "Bleed it" })).toBeVisible();
    await tap(page, "Undo");
    await expect(verdict(page)).toContainText("look it up today");
  });

  await test.step("ready for sea asks until that was done", async () => {
    await lookUp(page);
    await page.goto("/#/locker/ready");
    await expect(asked).toContainText("looked up within the year");
    await expect(asked.getByRole("button")).toHaveCount(0);
  });

  await test.step("without a rule nothing is kept, unless the master says so", async () => {
    await measured(page, "29");
    await tap(page, "Back");
    await page.getByRole("radio", { name: "Bluefish" }).check();
    await tap(page, "Next");
    await expect(verdict(page)).toContainText("No rule: let it go");
    await expect(page.getByRole("button", { name: "Keep it" })).toHaveCount(0);
    await tap(page, "The master says: keep");
    await expect(page.getByRole("heading", { name: "Bleed it" })).toBeVisible();
  });

  await test.step("rules are changed by the skipper, wrong ones are refused at their field, and the first set comes back", async () => {
    await page.goto("/#/fish/rules");
    await calm(page);
    await page.locator(".links a").first().click();
    await calm(page);
    await page.locator(".links a").first().click();
    await calm(page);
    await type(page.getByRole("group", { name: "Longest" }), "20");
    await expect(page.getByText("Must not be less than the least length")).toBeVisible();
    await type(page.getByRole("group", { name: "Longest" }), "35");
    await expect(page.getByRole("group", { name: "Longest" })).toContainText("35");
    await tap(page, "I checked it today");
    await expect(page.getByText("Set on this phone, and looked up today.").first()).toBeVisible();
    await measured(page, "34");
    await expect(verdict(page)).toContainText("May be kept");
    await page.goto("/#/fish/rules");
    await tap(page, "As first set");
    await expect(caution(page)).toContainText("defaults of 2024-01");
    await measured(page, "34");
    await expect(verdict(page)).toContainText("Too long by 3");
  });
});

test("rules of one’s own", async ({ page }) => {
  await test.step("a date that cannot be read is told at its field, is kept, and has the rule looked up", async () => {
    await lookUp(page);
    const rule = async () => {
      await page.goto("/#/fish/rules");
      await page.locator(".links a").first().click();
      await calm(page);
      await page.locator(".links a", { hasText: "ocean" }).first().click();
      await calm(page);
    };
    const until = page.getByLabel("In force until (year-month-day)");
    const say = async (field: Locator, date: string) => {
      await field.fill(date);
      await field.blur();
    };
    await rule();
    await say(until, "31.12.2023");
    const trouble = page.getByText("Must be a date: year-month-day such as 2024-05-01");
    await expect(trouble).toBeVisible();
    await expect(until).toHaveValue("31.12.2023");
    // It keeps nothing else from being changed, and is told again on another day.
    await type(page.getByRole("group", { name: "Longest" }), "35");
    await expect(page.getByRole("group", { name: "Longest" })).toContainText("35");
    const at = page.url();
    await page.goto("/#/fish");
    await page.goto(at);
    await calm(page);
    await expect(trouble).toBeVisible();
    await expect(until).toHaveValue("31.12.2023");
    await measured(page, "34");
    await expect(verdict(page)).toContainText("“31.12.2023” is no date this app can read: look it up today");
    await expect(page.getByRole("button", { name: "Keep it" })).toHaveCount(0);
    await tap(page, "I looked: it still holds");
    await expect(verdict(page)).toContainText("May be kept");
    // A rule that is to come allows nothing either.
    await rule();
    await say(until, "");
    await say(page.getByLabel("In force from (year-month-day)"), "2199-01-01");
    await measured(page, "34");
    await expect(verdict(page)).toContainText("In force only from 2199-01-01: look it up today");
  });

  await test.step("a set for a state is filled in, saved to a file, and read on another phone", async () => {
    await page.goto("/#/fish/rules");
    await page.getByRole("combobox", { name: "A set for a state, to fill in" }).selectOption("Rhode Island");
    await calm(page);
    await expect(page.getByRole("heading", { name: "Rhode Island, striped bass" })).toBeVisible();
    await page.locator(".links a").first().click();
    await calm(page);
    await type(page.getByRole("group", { name: "Shortest" }), "28");
    await type(page.getByRole("group", { name: "Fish a day, each" }), "1");
    await tap(page, "I checked it today");
    await page.goBack();
    await calm(page);
    const saving = page.waitForEvent("download");
    await tap(page, "Save this set to a file");
    const path = await (await saving).path();
    await tap(page, "Remove this set");
    await expect(page.getByText("Rhode Island, striped bass").first()).toBeVisible(); // with Undo
    await page.getByLabel("Load a set from a file").setInputFiles(path);
    await expect(page.getByText("Loaded, and used now: Rhode Island, striped bass.")).toBeVisible();
    await page.getByRole("radio", { name: "Rhode Island, state waters" }).check();
    await measured(page, "27.5");
    await expect(verdict(page)).toContainText(/Too short by 0\.5.in: from 28.in/);
  });

  await test.step("a set of one’s own keeps nothing until it says so", async () => {
    await page.goto("/#/fish/rules");
    await tap(page, "A set of your own");
    await page.goto("/#/fish/rules");
    await page.getByRole("radio", { name: "My rules" }).check();
    await page.getByRole("radio", { name: "my waters" }).check();
    await measured(page, "29");
    await expect(verdict(page)).toContainText("None may be kept.");
  });
});

test("what is reckoned: ice, weight and keeping", async ({ page }) => {
  await test.step("ice for the day: more fish take more, and a box too small says so", async () => {
    await page.goto("/#/fish/ice");
    const load = async () => Number(/Load ([\d.]+)/.exec(await page.locator(".ice-load").innerText())?.[1]);
    await expect(page.locator(".ice-load")).toContainText(/Load \d+/);
    // To begin with nothing warns, and all is round in the units that the phone begins with.
    await expect(page.getByRole("main").locator(".notice")).toHaveCount(0);
    await expect(page.getByRole("group", { name: "Air in the shade" })).toContainText(/\b77\b/);
    await expect(page.getByRole("combobox", { name: "Box" })).toContainText(/Long fish box, 118.qt/);
    await expect(page.locator("section.form")).not.toContainText(/\d\.\d|\d.L\b/);
    await expect(page.getByRole("main")).not.toContainText(/\d.K\b/);
    await expect(page.getByText(/air \(±4.°F\)/)).toBeVisible();
    await calm(page);
    const before = await load();
    await type(page.getByRole("group", { name: "Fish expected" }), "6");
    await expect.poll(load).toBeGreaterThan(before + 10);
    await expect(page.getByText("can freeze in part")).toBeVisible();
    await page.getByRole("group", { name: "Sea water to ice" }).getByRole("radio", { name: "None" }).check();
    await expect(page.getByText("can freeze in part")).toHaveCount(0);
    // What the box does not hold at first is told, and when to add it.
    await type(page.getByRole("group", { name: "Keep cold for" }), "200");
    await expect(page.getByText("The whole time takes")).toBeVisible();
    await expect(page.getByText(/Add \d+.* at the latest/).first()).toBeVisible();
    // Less than has to be left at the end is too little from the first, and what follows does not count what is added.
    await type(page.getByRole("group", { name: "Ice aboard" }), "2");
    await expect(page.getByText(/Too little to begin with: add \d+/)).toBeVisible();
    await expect(page.getByText(/Without adding: Slush/)).toBeVisible();
    await page.getByRole("combobox", { name: "Box" }).selectOption("small");
    await type(page.getByRole("group", { name: "Fish expected" }), "14");
    await expect(page.getByText("It does not fit")).toBeVisible();
    // So too where nobody told what is aboard: fish that leave no room for the ice that shall be left at the end, or for any.
    await type(page.getByRole("group", { name: "Ice aboard" }), "0");
    const fits = page.getByText("It does not fit");
    for (const [fish, does] of [
      ["2", true],
      ["12", false],
      ["20", false],
    ] as const) {
      await type(page.getByRole("group", { name: "Fish expected" }), fish);
      await expect(fits, `${fish} fish`).toHaveCount(does ? 0 : 1);
    }
    await expect(page.locator(".ice-load")).not.toContainText("packed in ice");
  });

  await test.step("weight from length and length from weight, each with its spread", async () => {
    await page.goto("/#/fish/weight");
    await calm(page);
    await type(page.getByRole("group", { name: "Total length" }), "40");
    // Brown and Murphy's standard, from the FSA collection: −4.924 + 3.007·log₁₀ 1016 mm gives 13.11 kg.
    await expect(page.getByText(/good condition of that length: 28\.9.lb/)).toBeVisible();
    // The trade's formula with the length to the fork, 0.93 of 40 in, and a girth of 22 in: 22.5 lb.
    await type(page.getByRole("group", { name: "Girth" }), "22");
    await expect(page.getByText(/formula, gives 22\.5.lb/)).toBeVisible();
    await page.getByRole("radio", { name: "the weight" }).check();
    await type(page.getByRole("group", { name: "Weight", exact: true }), "20");
    await expect(page.locator(".huge")).toContainText(/3[56].*in/);
  });

  await test.step("how it keeps: a warm hour more spoils more", async () => {
    await page.goto("/#/fish/keeping");
    await expect(page.getByText(/Used up: as much as/)).toBeVisible();
    await calm(page);
    const before = await page.getByRole("status").first().innerText();
    await type(page.getByRole("group", { name: "Its temperature" }).first(), "80");
    await expect(page.getByText("Outside 32")).toBeVisible();
    expect(await page.getByRole("status").first().innerText()).not.toBe(before);
  });
});

test.describe("in Spanish", () => {
  test.use({ locale: "es-MX" });
  test("waters are called in Spanish, wherever they are told", async ({ page }) => {
    await page.goto("/#/fish/rules");
    await page.getByRole("radio", { name: /aguas federales/ }).check();
    await page.goto("/#/fish");
    const rules = page.locator('main a[href="#/fish/rules"]', { hasText: "Costa atlántica" });
    await expect(rules).toContainText("aguas federales (3–200 millas náuticas)");
    await expect(rules).not.toContainText("federal waters");
  });
});
