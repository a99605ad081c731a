/** Crew: the briefing, the checklists, what is left ashore, on one phone and on several. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { answered, expect, type Page, test, watch } from "./app";
import { calm, closeTrip, comeAboard, exchangeNow, startTrip } from "./notes";
import { pass, phone, reload } from "./phone";

const inControl = (page: Page) =>
  page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");

const check = (page: Page, words: string) => page.getByRole("button", { name: words });

const ticked = (page: Page, words: string) =>
  expect(check(page, words)).toHaveAttribute("aria-pressed", "true");
const open = (page: Page, words: string) =>
  expect(check(page, words)).toHaveAttribute("aria-pressed", "false");

async function visit(page: Page, path: string): Promise<void> {
  await page.goto(`/#/${path}`);
  await expect(page.getByRole("heading").first()).toBeVisible();
  await calm(page);
}

async function fill(page: Page, fields: { [label: string]: string }): Promise<void> {
  for (const [label, typed] of Object.entries(fields)) {
    await page.getByLabel(label, { exact: true }).fill(typed);
    await page.getByLabel(label, { exact: true }).blur();
  }
}

test("a phone that has nothing but the app has languages, emergencies and the briefing of it @keeps", async ({
  page,
  context,
}) => {
  await test.step("in English it loads no other language; Spanish is two taps away, remembered, and there with no network", async () => {
    const asked: string[] = [];
    page.on("request", (request) => asked.push(new URL(request.url()).pathname));
    await page.goto("/#/locker");
    await expect(page.getByRole("heading", { name: "Locker" })).toBeVisible();
    await inControl(page);
    const kept = () =>
      page.evaluate(async () => {
        const all = await Promise.all(
          (await caches.keys()).map(async (name) => (await caches.open(name)).keys()),
        );
        return all.flat().filter(({ url }) => /\/words\/es\//.test(url)).length;
      });
    expect(asked.filter((path) => /\/words\/es\//.test(path))).toEqual([]);
    expect(await kept()).toBe(0);
    await calm(page);
    await page.getByRole("radio", { name: "Español" }).check();
    await expect(page.getByRole("heading", { name: "Pañol" })).toBeVisible();
    expect(asked.filter((path) => /\/words\/es\//.test(path))).toHaveLength(1);
    await expect.poll(kept).toBe(1);
    await context.setOffline(true);
    await reload(page);
    await expect(page.getByRole("heading", { name: "Pañol" })).toBeVisible();
    await calm(page);
    await page.getByRole("radio", { name: "English" }).check();
    await expect(page.getByRole("heading", { name: "Locker" })).toBeVisible();
  });
  await test.step("every emergency can be read without trip, server or signal", async () => {
    await visit(page, "help");
    const pages = await page
      .locator("main .links a")
      .evaluateAll((all) => all.map((one) => (one as HTMLAnchorElement).hash));
    expect(pages.length).toBeGreaterThanOrEqual(8);
    for (const hash of pages) {
      await page.goto(`/${hash}`);
      await expect(page.locator("main").getByRole("heading").first()).toBeVisible();
      // Large, and with whoever says so beside it.
      if (hash.startsWith("#/help/")) {
        expect(await page.locator(".help-steps li").count(), hash).toBeGreaterThan(4);
        await expect(page.locator("main"), hash).toContainText(/Source|from memory|common practice/i);
        // Nobody has said how many are aboard: it is asked where the call for help is read.
        await expect(page.getByRole("group", { name: "How many are aboard?" }), hash).toBeVisible();
      }
    }
  });
  await test.step("a guest without trip, server or signal reads the briefing, ticks, and it stays", async () => {
    await page.goto("/#/lines");
    await answered(page);
    await page.getByRole("link", { name: "Crew" }).click();
    await calm(page);
    await page.getByRole("link", { name: /Briefing/ }).click();
    const titles: string[] = [];
    for (;;) {
      await calm(page);
      titles.push(await page.getByRole("heading", { level: 1 }).innerText());
      await expect(page.locator(".sketch")).toBeVisible();
      const next = page.getByRole("button", { name: "Next" });
      if ((await next.count()) === 0) break;
      await next.click();
    }
    expect(new Set(titles).size).toBe(14);
    await page.getByRole("button", { name: "Tick it" }).click();
    await calm(page);
    await page.getByLabel("First name or nickname").fill("Sam");
    await page.getByRole("button", { name: "I have heard it" }).click();
    await ticked(page, "Sam");
    await reload(page);
    await ticked(page, "Sam");
    await page.goto("/#/notes");
    await expect(page.getByText("No trip runs")).toBeVisible();
    await calm(page);
    await page.getByRole("button", { name: "Start a trip" }).click();
    await expect(page.locator(".told", { hasText: "Briefing" })).toContainText("Sam");
  });
});

test("the briefing is read out, lists are ticked, begun anew, changed and made, and trouble with gear is listed", async ({
  page,
}) => {
  await page.addInitScript(() => {
    const said: string[] = [];
    const voice = { name: "Own", lang: "en-US", localService: true };
    const synthesis = {
      speaking: false,
      getVoices: () => [voice, { name: "Far", lang: "en-US", localService: false }],
      speak: ({ text }: { text: string }) => said.push(text),
      cancel: () => said.push("(quiet)"),
      addEventListener: () => undefined,
    };
    Object.defineProperty(window, "speechSynthesis", { value: synthesis });
    Object.defineProperty(window, "SpeechSynthesisUtterance", {
      value: class {
        constructor(readonly text: string) {}
      },
    });
    Object.assign(window, { said });
  });
  await test.step("the briefing is read out by a voice of the phone, where it has one", async () => {
    await page.goto("/#/crew/briefing/2");
    await calm(page);
    await page.getByRole("button", { name: "Read it out" }).click();
    const said = () => page.evaluate(() => (window as unknown as { said: string[] }).said);
    expect((await said())[0]).toBe("Wire under load");
    expect(await said()).toHaveLength(4);
    await calm(page);
    await page.getByRole("button", { name: "Next" }).click();
    await expect.poll(said).toContain("(quiet)");
  });
  await test.step("checks are ticked with one tap, survive a restart, and every trip begins with none", async () => {
    await visit(page, "crew/list/leaving");
    await expect(page.getByText("The first tick begins a trip")).toBeVisible();
    await check(page, "Wire cutter").click();
    // Only what is on the disk says when it was ticked.
    await expect(check(page, "Wire cutter")).toContainText(/this phone, \d\d:\d\d/);
    await reload(page);
    await ticked(page, "Wire cutter");
    await visit(page, "crew");
    await expect(page.getByRole("link", { name: /Before leaving/ })).toContainText("1 of 19 done");
    await visit(page, "notes/past");
    await page.getByLabel("Search all notes").fill("cutter");
    await expect(
      page.locator(".links a", { hasText: "Wire cutter where all can reach it, Done" }),
    ).toBeVisible();
    await visit(page, "notes");
    await page.locator("a.notes-trip").click();
    await calm(page);
    await closeTrip(page);
    await visit(page, "crew/list/leaving");
    await open(page, "Wire cutter");
  });
  await test.step("a list begins anew for the next turn, and undo has the ticks back", async () => {
    await visit(page, "crew/list/turn");
    for (const words of ["Room all round", "Wide and slow"]) {
      await check(page, words).click();
      await ticked(page, words);
    }
    await calm(page);
    await page.getByRole("button", { name: "Begin anew" }).click();
    await open(page, "Room all round");
    await calm(page);
    await page.getByRole("button", { name: "Undo" }).click();
    await ticked(page, "Room all round");
  });
  await test.step("a list is changed, reordered and had back as it came; one's own is made", async () => {
    await visit(page, "crew/change/turn");
    await page.getByLabel("Add a check").fill("Ask the mate");
    await page.getByRole("button", { name: "Add", exact: true }).click();
    await calm(page);
    await page.getByRole("button", { name: "Up: Ask the mate" }).click();
    await page.getByLabel("Check 1").fill("Room enough");
    await page.getByLabel("Check 1").blur();
    await calm(page);
    await page.getByRole("button", { name: "Take off: No wire going out" }).click();
    await reload(page);
    await visit(page, "crew/list/turn");
    const shown = page.locator("main .links .button");
    await expect(shown).toHaveCount(5);
    await expect(shown.first()).toContainText("Room enough");
    await expect(shown.nth(3)).toContainText("Ask the mate");
    await visit(page, "crew/change/turn");
    await page.getByRole("button", { name: "As it came" }).click();
    await expect(page.getByLabel("Check 1")).toHaveValue(/Room all round/);

    await visit(page, "crew");
    await page.getByRole("button", { name: "Make a list of your own" }).click();
    await calm(page);
    await fill(page, { "Name of the list": "Night" });
    await page.getByLabel("Add a check").fill("Lights tried");
    await page.getByRole("button", { name: "Add", exact: true }).click();
    await visit(page, "crew");
    await page.getByRole("link", { name: /Night/ }).click();
    await calm(page);
    await expect(check(page, "Lights tried")).toBeVisible();
  });
  await test.step("kinked wire goes on the list to replace, and the list lasts from trip to trip", async () => {
    await page.goto("/#/lines");
    await answered(page);
    await visit(page, "crew/gear");
    await expect(page.getByText("replaced, never fished")).toBeVisible();
    const choice = page.getByLabel("Note trouble with");
    await choice.selectOption({ label: "40 lb wire" });
    await calm(page);
    await page.getByRole("button", { name: "Kink" }).click();
    const buy = page.getByRole("button", { name: "Done: New wire for 40 lb wire (kinked)" });
    await expect(buy).toBeVisible();
    await expect(page.locator("a", { hasText: "Kink, 40 lb wire" })).toBeVisible();
    await visit(page, "notes");
    await page.locator("a.notes-trip").click();
    await calm(page);
    await closeTrip(page);
    await visit(page, "crew/gear");
    await expect(page.getByText("None noted.")).toBeVisible();
    await buy.click();
    await expect(page.getByText("Nothing to buy")).toBeVisible();
  });
});

/** What comes out of the printer: black on white, whatever the palette, and nothing of the screen. */
async function onPaper(page: Page, name: string): Promise<void> {
  await page.emulateMedia({ media: "print" });
  await expect(page.locator(".paper")).toBeVisible();
  for (const other of [".top", ".page-foot", "main .button"])
    await expect(page.locator(other).first()).toBeHidden();
  const { ink, ground } = await page.locator(".paper").evaluate((paper) => ({
    ink: getComputedStyle(paper).color,
    ground: getComputedStyle(document.documentElement).backgroundColor,
  }));
  expect([ink, ground]).toEqual(["rgb(0, 0, 0)", "rgba(0, 0, 0, 0)"]);
  await page.emulateMedia({ media: null });
  const pdf = await page.pdf({
    format: "Letter",
    preferCSSPageSize: true,
    path: join(import.meta.dirname, `../screens/paper-${name}.pdf`),
  });
  // One sheet each.
  expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
}

test.describe("with a receiver", () => {
  test.use({
    geolocation: { latitude: 41.2542, longitude: -71.5, accuracy: 6 },
    permissions: ["geolocation", "clipboard-read", "clipboard-write"],
  });

  test("what is told of the boat is in the words for the radio and in the float plan, on screen and on paper", async ({
    page,
    context,
  }) => {
    await page.addInitScript(() => localStorage.setItem("palette", "night"));
    await test.step("the words for channel 16 have this boat and this place in them", async () => {
      await visit(page, "crew/radio");
      await expect(page.getByText("name is not told yet")).toBeVisible();
      await visit(page, "crew/boat");
      await fill(page, { "Name of the boat": "Petrel", "Call sign": "WXX 1234", MMSI: "33812345" });
      await expect(page.getByRole("alert").filter({ hasText: "nine digits" })).toBeVisible();
      await fill(page, { MMSI: "338123456", "What sort of boat": "open boat", Colour: "white" });
      const more = page.getByRole("group", { name: "Length" }).getByRole("button", { name: "more" });
      await more.click();
      await pass(page, 150);
      await more.click();
      await page.getByRole("group", { name: "People aboard" }).getByRole("button", { name: "more" }).click();
      await pass(page, 1200);
      await reload(page);
      await visit(page, "crew/radio");
      const words = page.locator("main > .call");
      await expect(words).toContainText(
        "This is Petrel, Petrel, Petrel, call sign WXX 1234, M M S I 3 3 8 1 2 3 4 5 6.",
      );
      await expect(words).toContainText("My position is 41°15.252′N 071°30.000′W.");
      await expect(words).toContainText("1 person aboard");
      await expect(words).toContainText(/The boat is 21.ft, open boat, white\./);
    });
    await test.step("the float plan is filled from trip and boat, and leaves as text", async () => {
      await startTrip(page);
      await calm(page);
      await page.locator("a.notes-trip").click();
      await calm(page);
      for (const name of ["Ann", "Ben"]) {
        await page.getByLabel("First name or nickname").fill(name);
        await page.getByRole("button", { name: "Add", exact: true }).click();
      }
      await fill(page, { Ground: "The ledge" });
      await visit(page, "crew/boat");
      await fill(page, { "Phone aboard": "555 0100" });
      await visit(page, "crew/floatplan");
      await page.getByLabel("Back by").fill("2027-06-12T14:00");
      await page.getByLabel("Call for help if not heard of by").fill("2027-06-12T13:00");
      await expect(
        page.getByRole("alert").filter({ hasText: "later than the time to be back" }),
      ).toBeVisible();
      await page.getByLabel("Call for help if not heard of by").fill("2027-06-12T16:00");
      await fill(page, { "Coast guard, number to call": "555 0199" });
      const plan = page.locator("main > .floatplan-text");
      for (const part of ["Petrel", "Aboard (2): Ann, Ben", "The ledge", "12", "14:00", "16:00", "555 0199"])
        await expect(plan).toContainText(part);
      await context.setOffline(true);
      await calm(page);
      await page.getByRole("button", { name: "Copy it" }).click();
      await expect(page.getByText("Copied.")).toBeVisible();
      const said = await plan.innerText();
      expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(said);
      await calm(page);
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("button", { name: "Save as a file" }).click(),
      ]);
      expect(readFileSync(await download.path(), "utf8")).toBe(said);
      await context.setOffline(false);
    });
    await test.step("checklists, radio words and float plan go on paper, even from the night palette", async () => {
      for (const [path, name] of [
        ["crew", "lists"],
        ["crew/list/leaving", "list"],
        ["crew/radio", "radio"],
        ["crew/floatplan", "plan"],
      ] as const) {
        await visit(page, path);
        await onPaper(page, name);
      }
    });
  });
});

test.describe("several phones", () => {
  test("guests tick on their own phone, and the skipper sees who has; lists and boat are the crew's", async ({
    aboard,
    browser,
    server,
  }) => {
    const skipper = await aboard("Ann", "skipper");
    await visit(skipper, "crew/boat");
    await fill(skipper, { "Name of the boat": "Petrel", "Call sign": "WDX 1234" });
    await visit(skipper, "crew/change/dock");
    await skipper.getByLabel("Add a check").fill("Hose the deck");
    await skipper.getByRole("button", { name: "Add", exact: true }).click();
    await startTrip(skipper);
    await calm(skipper);
    await skipper.locator("a.notes-trip").click();
    await fill(skipper, { Name: "Saturday" });
    for (const name of ["Gus", "Kim"]) {
      await skipper.getByLabel("First name or nickname").fill(name);
      await calm(skipper);
      await skipper.getByRole("button", { name: "Add", exact: true }).click();
    }
    await exchangeNow(skipper);

    const guest = await phone(browser, { baseURL: server.url });
    // Gus has ticked on the way to the boat, before coming aboard.
    await visit(guest, "crew/briefed");
    await guest.getByLabel("First name or nickname").fill("gus");
    await guest.getByRole("button", { name: "I have heard it" }).click();
    await ticked(guest, "gus");
    await comeAboard(guest, server, "Gus’s phone", server.invite("guest", "--trip", "Saturday"));
    await visit(guest, "crew/radio");
    await expect(guest.locator("main > .call")).toContainText("This is Petrel");
    await visit(guest, "crew/list/dock");
    await expect(check(guest, "Hose the deck")).toBeVisible();
    await expect(guest.getByRole("link", { name: "Change this list" })).toHaveCount(0);
    await visit(guest, "crew");
    await expect(guest.getByRole("button", { name: "Make a list of your own" })).toHaveCount(0);
    await visit(guest, "crew/boat");
    await expect(guest.getByText("Petrel")).toBeVisible();
    await expect(guest.getByText("WDX 1234")).toBeVisible();
    await expect(guest.getByLabel("Name of the boat")).toHaveCount(0);
    await visit(guest, "crew/weather");
    await expect(guest.getByRole("heading", { name: "Our own limits" })).toBeVisible();
    const limits = (page: Page) => page.getByText("Our own limits").locator("~ .form");
    await expect(limits(guest)).toHaveCount(0);
    await visit(guest, "enrol");
    await expect(guest.getByText("This phone is “Gus’s phone”, guest.")).toBeVisible();
    await expect(guest.getByRole("link", { name: "Invite a phone" })).toHaveCount(0);
    await visit(skipper, "crew/weather");
    await expect(limits(skipper)).toBeVisible();
    await visit(guest, "crew/briefed");
    await ticked(guest, "Gus");
    await exchangeNow(guest);

    await exchangeNow(skipper);
    await visit(skipper, "crew");
    await expect(skipper.getByRole("link", { name: /Briefing/ })).toContainText("1 of 2 have ticked");
    await visit(skipper, "crew/briefed");
    await ticked(skipper, "Gus");
    await expect(check(skipper, "Gus")).toContainText("Gus’s phone");
    await open(skipper, "Kim");

    const mate = await aboard("Ben", "mate");
    await visit(mate, "notes");
    await expect(mate.locator("a.notes-trip")).toContainText("Saturday");
    await visit(mate, "crew/list/dock");
    await check(mate, "Hose the deck").click();
    await exchangeNow(mate);
    await visit(mate, "crew/change/dock");
    await mate.getByRole("button", { name: "Up: Hose the deck" }).click();
    await exchangeNow(mate);
    await exchangeNow(skipper);
    await visit(skipper, "crew/list/dock");
    await ticked(skipper, "Hose the deck");
    await expect(check(skipper, "Hose the deck")).toContainText("Ben");
    await expect(skipper.locator("main .links .button").nth(7)).toContainText("Hose the deck");
  });
});

test.describe("in Spanish", () => {
  test.use({ locale: "es-ES" });

  test("a phone set to Spanish speaks Spanish from the first, with its decimals and dates, also without signal @keeps", async ({
    page,
    context,
  }) => {
    const faults = watch(page);
    await page.goto("/#/lines");
    await answered(page);
    await expect(page.locator("html")).toHaveAttribute("lang", "es");
    await expect(page.getByRole("link", { name: "Tripulación" })).toBeVisible();
    await expect(page.locator(".rod").first()).toContainText("tangón de babor");
    await inControl(page);
    await page.goto("/#/locker/ready");
    await context.setOffline(true);
    await reload(page);
    await expect(page.locator("html")).toHaveAttribute("lang", "es");
    await page.goto("/#/lines");
    await answered(page);
    await calm(page);
    await page.locator(".dial", { hasText: "Veloc." }).click();
    const speed = page.getByRole("group", { name: "Veloc." });
    await speed.locator("button.stepper-value").click();
    await speed.locator("input").fill("2,85");
    await speed.locator("input").press("Enter");
    await expect(speed.locator(".readout")).toHaveText(/^2,85\s*kn$/);
    await calm(page);
    await speed.locator("button.stepper-value").click();
    await speed.locator("input").fill("99");
    await speed.locator("input").press("Enter");
    await expect(page.getByRole("alert").filter({ hasText: "Debe ser de 0 a" })).toBeVisible();

    await visit(page, "crew/list/turn");
    await check(page, "Lugar alrededor").click();
    await expect(check(page, "Lugar alrededor")).toContainText(/este teléfono, \d\d:\d\d/);
    await visit(page, "crew/floatplan");
    await page.getByLabel("De vuelta a más tardar").fill("2027-06-12T14:00");
    await expect(page.locator("main > .floatplan-text")).toContainText(/sáb, 12 jun 2027, 14:00/);
    await visit(page, "crew/radio");
    // Said in the language of those who listen; what it means is below.
    const call = page.locator("main > .call li").nth(5);
    await expect(call).toContainText("We need help at once.");
    await expect(call.locator("[lang=es]")).toHaveText("Necesitamos ayuda de inmediato.");

    // A tick is the same on a phone that speaks English.
    await visit(page, "locker");
    await page.getByRole("radio", { name: "English" }).check();
    await expect(page.locator("html")).toHaveAttribute("lang", "en");
    await visit(page, "crew/list/turn");
    await ticked(page, "Room all round");
    expect(faults).toEqual([]);
  });
});
