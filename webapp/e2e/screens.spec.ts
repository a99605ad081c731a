/**
 * Every page and place of the app in every pose and both languages: nothing cut, overlapping, too small to hit or outside
 * the screen; and looked over by axe. With SHEETS set all of it is drawn to webapp/screens too, for people, who find the
 * sheets there.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import axe from "axe-core";
import { answered, expect, type Locator, type Page, settled, test } from "./app";
import { Boat } from "./boat";
import { Gateway } from "./gateway";
import { addresses, edgeless, faults, isOf } from "./layout";
import { light } from "./light";
import { type Judging, judgedLooks, looks } from "./looks";
import { calm, comeAboard, exchangeNow, row, startTrip, writeNote } from "./notes";
import { pass, phone, quiet, reload, standing, within } from "./phone";
import { forced, hold, palettes, poseNames } from "./poses";
import { prepare, screens } from "./screens";
import { startServer } from "./server";

const folder = join(import.meta.dirname, "../screens");
/** For `make sheets`: draws what otherwise is only measured, and measures all of it in either language. */
const draws = process.env.SHEETS !== undefined;

// To draw all of a part takes minutes, and what hangs is seen by what is not drawn.
if (draws) test.setTimeout(900_000);

/** All rules that are on by default, but for how words are told from their ground. */
const apartFromContrast: axe.RunOptions = { rules: { "color-contrast": { enabled: false } } };
/** 7 : 1, an AAA rule, which includes 4.5 : 1; not in the red of the night. */
const contrast = { day: "color-contrast-enhanced", dusk: "color-contrast-enhanced", night: "color-contrast" };
/** What else of its rules a pose may change, but for the size of targets: `faults` asks more. */
const moves = "scrollable-region-focusable";

/** What a part sees to of the app's own addresses, by their first word; the one without any takes what no other does. */
const seesTo: { [part: string]: readonly string[] } = {
  lines: ["lines"],
  "pace and notes": ["pace", "notes"],
  fish: ["fish"],
  crew: ["crew", "overboard"],
  emergencies: ["help"],
  locker: [],
};
const named = Object.values(seesTo).flat();
const isSeenTo = (part: string) => (address: string) => {
  const first = address.split("/")[0] ?? "";
  return seesTo[part]?.length ? seesTo[part].includes(first) : !named.includes(first);
};

test("all addresses of the app are known here", () => {
  expect(addresses.length).toBeGreaterThan(60);
  expect(addresses).toContain("lines/rod/:id");
  expect(addresses).toContain("crew");
  expect(Object.keys(seesTo).sort()).toEqual(Object.keys(screens).sort());
  for (const address of addresses)
    expect(
      Object.keys(screens).filter((part) => isSeenTo(part)(address)),
      address,
    ).toHaveLength(1);
});

test("words of another colour, or on another ground, and what moves on its own are looked at anew", async ({
  page,
}) => {
  const known = async (style: string, more = "") => {
    await page.setContent(`<main style="background: #fff"><p style="${style}">Words</p>${more}</main>`);
    return looks(page, "one");
  };
  const usual = await known("color: #555");
  expect(usual).toHaveLength(1);
  expect(await known("color: #555; margin: 3em")).toEqual(usual);
  expect(await known("color: #555", "<p hidden style='color: #777'>None</p>")).toEqual(usual);
  for (const style of [
    "color: #777",
    "color: #555; background: #ccc",
    "color: #555; opacity: 0.5",
    "color: #555; font-size: 30px",
  ])
    expect(usual, style).not.toContain((await known(style))[0]);
  expect(await known("color: #555", "<p style='color: #777'>More</p>")).toHaveLength(2);
  // A field, and what is seen through behind a ground.
  expect(await known("color: #555", "<input value='None'>")).toHaveLength(2);
  await page.setContent(
    '<main style="opacity: 0.5"><p style="color: #555; background: #fff">Words</p></main>',
  );
  expect(await looks(page, "one")).not.toEqual(usual);
  // What cannot be tapped, what only a reader hears, and a sign alone, axe leaves out.
  const out =
    "<button disabled style='color: #777'>No</button><p class='visually-hidden' style='color: #777'>No</p>";
  expect(await known("color: #555", `${out}<p style='color: #777'>×</p>`)).toEqual(usual);
  // What lies over something looks the same on its own screen alone.
  await page.setContent(
    '<main style="background: #fff"><p style="color: #555; position: fixed">Words</p></main>',
  );
  expect(await looks(page, "one")).toEqual(await looks(page, "one"));
  expect(await looks(page, "one")).not.toEqual(await looks(page, "another"));
  expect(await looks(page, "one")).not.toEqual(usual);
  const list = (style: string, item: string) =>
    known("color: #555", `<div style="height: 50px; ${style}"><p style="height: 90px">${item}</p></div>`);
  expect(await list("", "")).toEqual(usual);
  const moving = await list("overflow: auto", "");
  expect(moving).toHaveLength(2);
  expect(moving).not.toEqual(await list("overflow: auto", "<button></button>"));
});

test("axe judges words where they look new, and there alone", async ({ page }) => {
  await page.setContent(
    '<main style="background: #fff"><p style="color: #555">Well</p><p style="color: #ccc">Badly</p></main>',
  );
  const [well = "", badly = ""] = await looks(page, "one");
  const wrong = async (...among: string[]) =>
    (await judgedBy(page, { runOnly: [contrast.night] }, among))?.wrong.join();
  expect(await wrong(well)).toBe("");
  expect(await judgedLooks(page, "one")).toEqual([well]);
  expect(await wrong(badly)).toContain("Badly");
  expect(await judgedLooks(page, "one")).toEqual([badly]);
});

test("each fault of a layout is found where it was put, and none where there is none", async ({ page }) => {
  const found = async (body: string, pose = "upright") => {
    await page.setContent(
      `<!doctype html><html data-pose="${pose}" style="font: 18px sans-serif"><body style="margin: 0"><main style="padding: 8px">${body}</main></body></html>`,
    );
    return faults(page);
  };
  const button = (style = "", words = "Mark") =>
    `<button style="width: 120px; height: 60px; font: inherit; ${style}">${words}</button>`;
  const drawing = (mark: string, x: number) =>
    `<svg width="200" height="100">${mark}<text x="${x}" y="56" font-size="18">40</text></svg>`;
  expect(await found(`<p>Words</p>${button()}`)).toEqual([]);
  for (const [what, body] of [
    ["outside the screen", '<p style="position: absolute; left: -50px; top: 0">Words</p>'],
    [
      "cut at a side",
      '<div style="width: 60px; overflow: hidden; white-space: nowrap"><p>Words cut</p></div>',
    ],
    [
      "cut above or below",
      '<div style="height: 20px; overflow: hidden"><p style="margin: 0">Words<br>cut</p></div>',
    ],
    ["out of its frame", button("padding: 0; overflow: visible", "Mark<br>all<br>of<br>it")],
    ["over each other", '<p style="margin: 0">Words</p><p style="margin: -20px 0 0">Words</p>'],
    ["words on a control", `${button()}<p style="margin: -40px 0 0">Words</p>`],
    ["controls over each other", `${button()}<br>${button("position: relative; top: -30px")}`],
    ["too small to hit", button("height: 40px")],
    ["letters of", '<p style="font-size: 12px">Words</p>'],
    ["a word is broken", '<p style="width: 60px; overflow-wrap: anywhere">Incomprehensible</p>'],
    ["a line through words", drawing('<path d="M0 50H200" stroke="#000" />', 20)],
    ["a ring through words", drawing('<circle cx="50" cy="50" r="40" fill="none" stroke="#000" /><g />', 80)],
    [
      "a mark stands above its words",
      '<p><svg class="icon" style="display: block" width="20" height="20"></svg> Words</p>',
    ],
    ["moves sideways", '<div style="width: 90px; overflow-x: auto"><p style="width: 300px">Words</p></div>'],
    ["the page is wider", '<div style="width: 900px; height: 5px"></div>'],
    ["not always in reach", `<div style="height: 2000px"></div><div class="quick-bar">${button()}</div>`],
    ["the place is", '<div class="place" style="height: 2000px"></div>'],
  ] as const)
    expect((await found(body)).join("; "), what).toContain(what);
  // In large print the browser's own dictionary breaks words, where it has one, but neither numbers nor names of places.
  const broken = (word: string, more = "") =>
    found(`<p ${more} style="width: 60px; overflow-wrap: anywhere">${word}</p>`, "flow");
  expect(await broken("Incomprehensible")).toEqual([]);
  expect((await broken("1234567890")).join()).toContain("a word is broken");
  expect((await broken("Incomprehensible", 'class="bar"')).join()).toContain("a word is broken");
  // Beside the view the deck is as high as the place; where all flows the dial stands by the rods.
  const short = '<div class="place" style="height: 300px"><div class="place-deck">Words</div></div>';
  expect((await found(short, "sideways")).join()).toContain("the deck ends");
  const far = '<div class="lines"><div class="rod-list-foot">Foot</div><div class="stepper">Dial</div></div>';
  expect((await found(far, "flow")).join()).toContain("the dial in hand stands below");
});

for (const [part, ways] of Object.entries(screens)) {
  test(`every screen of ${part} @keeps`, async ({ page, server }) => {
    await page.goto("/#/lines");
    await answered(page);
    await settled(page);
    await prepare(page, server);
    const boat = await Boat.aboard(page);
    const paths: [name: string, path: string][] = [];
    const links = new Set<string>();
    // In a step each: to find a place among all that a test has done takes the runner longer the more that is.
    const look = (name: string, path: string) =>
      test.step(name, async () => {
        const turn = paths.push([name, path]);
        await visit(page, path);
        await expect(page.getByText("Not here any more"), name).toHaveCount(0);
        for (const link of await page
          .locator('a[href^="#/"]')
          .evaluateAll((all) => all.map((a) => a.getAttribute("href"))))
          links.add(link?.slice(2) ?? "");
        await inPoses(page, turn % 2, name, "en");
        await hold(page, "small phone");
        await inPalettes(page, name);
      });
    for (const [name, way] of Object.entries(ways)) {
      await page.goto("/#/lines");
      await look(name, await way(page, boat));
    }
    // What the app has besides, and nobody has named yet.
    for (const address of addresses.filter(isSeenTo(part))) {
      if (paths.some(([, path]) => isOf(address, path))) continue;
      const path = address.includes(":") ? [...links].find((link) => isOf(address, link)) : address;
      expect(path, `a way to ${address} in screens.ts, or a link to it on a screen there`).toBeDefined();
      if (path) await look(address.replace(/\W+/g, "-"), path);
    }

    // Its words come from the server: without them all of this would be seen in English once more.
    await page.context().setOffline(false);
    await page.evaluate(() => localStorage.setItem("language", "es"));
    await reload(page);
    await expect(page.locator("html")).toHaveAttribute("lang", "es");
    for (const [i, [name, path]] of paths.entries())
      await test.step(name, async () => {
        await visit(page, path);
        await inPoses(page, i % 2, name, "es");
        if (draws) await scan(page, apartFromContrast, `${name} in es`);
      });
  });
}

test("coming aboard by the one code, on either phone", async ({ browser, page: skipper, server }) => {
  await comeAboard(skipper, server, "Ann", server.invite("skipper"));
  await startTrip(skipper);
  const guest = await phone(browser, { baseURL: server.url });
  await guest.goto("/#/enrol");
  await inBothLanguages(guest, "enrol-ask", guest.getByRole("textbox").first());
  await guest.getByLabel("A name for this phone").fill("Gus");
  await calm(guest);
  await guest.getByRole("button", { name: "Ask the skipper" }).click();
  // What is under way when a page is loaded anew is lost.
  await expect(guest.locator(".code")).toBeVisible();
  await inBothLanguages(guest, "enrol-word", guest.locator(".code"));
  await skipper.goto("/#/lines");
  await inBothLanguages(skipper, "lines-asked", skipper.locator(".notices").getByText("Gus"));
  await skipper.goto("/#/enrol/invite");
  await inBothLanguages(skipper, "invite-asked", skipper.locator(".ask"));
  // A guest who has heard the yes is aboard, and asks no more.
  await guest.context().setOffline(true);
  await skipper.getByRole("button", { name: "Yes, aboard" }).click();
  await expect(skipper.getByText("“Gus” may come aboard: guest.")).toBeVisible();
  await inBothLanguages(skipper, "invite-welcome", skipper.getByText("Gus"));
  await guest.context().setOffline(false);
  await inBothLanguages(guest, "ready-first", guest.locator('a[href^="#/crew/briefing"]').first());
});

test("what is asked of two trips, and proposed by a guest", async ({ browser, page: skipper, server }) => {
  await comeAboard(skipper, server, "Ann", server.invite("skipper"));
  await startTrip(skipper);
  await writeNote(skipper, "Birds working over the ledge, tide just turned.");
  await expect(skipper.locator(".sending")).toContainText("All sent");
  const [trip = ""] = /[^/]+$/.exec((await skipper.locator("a.notes-trip").getAttribute("href")) ?? "") ?? [];
  const guest = await phone(browser, { baseURL: server.url });
  await comeAboard(guest, server, "Gus", server.invite("guest", "--trip", trip));
  await guest.goto("/#/notes");
  await row(guest, "Birds").click();
  await calm(guest);
  await guest.getByRole("button", { name: "Propose a change" }).click();
  await guest.locator("textarea").fill("Birds working over the ledge, tide turned an hour before.");
  await guest.locator("textarea").blur();
  await calm(guest);
  await guest.getByRole("button", { name: "Done" }).click();
  await guest.goto(`/#/notes/trip/${trip}`);
  await calm(guest);
  await guest.getByRole("button", { name: "Propose a change" }).click();
  await guest.getByLabel("Ground").fill("The ledge");
  await guest.getByLabel("Ground").blur();
  await calm(guest);
  await guest.getByRole("button", { name: "Done" }).click();
  await exchangeNow(guest);
  await guest.goto(`/#/notes/trip/${trip}`);
  await inBothLanguages(guest, "trip-of-guest", guest.locator(".notice.several"));
  await exchangeNow(skipper);
  await row(skipper, "Birds").click();
  await inBothLanguages(skipper, "record-proposed", skipper.locator(".notice.several"));
  await skipper.goto(`/#/notes/trip/${trip}`);
  await inBothLanguages(skipper, "trip-proposed", skipper.locator(".notice.several"));

  const mate = await phone(browser, { baseURL: server.url });
  await startTrip(mate);
  await comeAboard(mate, server, "Ben", server.invite("mate"));
  await exchangeNow(mate);
  await exchangeNow(mate);
  await inBothLanguages(mate, "notes-two-trips", mate.locator(".two-trips"));
});

test("who was shut out, what is open still, and what one phone pressed", async ({
  browser,
  page: skipper,
  server,
}) => {
  await comeAboard(skipper, server, "Ann", server.invite("skipper"));
  await startTrip(skipper);
  await writeNote(skipper, "first of the trip");
  await expect(skipper.locator(".sending")).toContainText("All sent");
  const [trip = ""] = /[^/]+$/.exec((await skipper.locator("a.notes-trip").getAttribute("href")) ?? "") ?? [];
  const link = server.invite("guest", "--trip", trip, "--uses", "3");
  server.invite("mate", "--hours", "720");
  const guest = await phone(browser, { baseURL: server.url });
  await comeAboard(guest, server, "Gus", link);
  for (let i = 0; i < 3; i++) {
    await guest.goto("/#/lines");
    await calm(guest);
    await guest.locator(".overboard-button").click();
    await calm(guest);
    await guest.locator(".overboard-yes").click();
    await expect(guest.locator(".overboard-since")).toBeVisible();
  }
  await exchangeNow(guest);
  await exchangeNow(skipper);
  await skipper.goto("/#/overboard");
  await inBothLanguages(skipper, "overboard-pressed", skipper.locator(".links a.button").first());
  await skipper.goto("/#/enrol/phones");
  await skipper.getByRole("link", { name: /Gus/ }).click();
  await calm(skipper);
  await skipper.getByRole("button", { name: "Shut this phone out" }).click();
  await expect(skipper.locator(".ask")).toHaveCount(2);
  await inBothLanguages(skipper, "phone-out", skipper.locator(".ask").first());
  await skipper.goto("/#/enrol/invite");
  await inBothLanguages(skipper, "invite-open", skipper.locator(".ask").first());
});

test("what lies over a place: the lock against wet touches, and the question whether somebody is overboard", async ({
  page,
}) => {
  for (const [i, language] of (["en", "es"] as const).entries()) {
    for (const [name, opener] of [
      ["lines-locked", ".wet-lock-button"],
      ["overboard-asked", ".overboard-button"],
    ] as const) {
      await page.goto("/#/lines");
      await page.evaluate((language) => {
        localStorage.setItem("language", language);
        // It outlives a reload.
        localStorage.removeItem("wet-lock");
      }, language);
      await reload(page);
      await answered(page);
      await calm(page);
      await page.locator(opener).click();
      await expect(page.locator(".wet-lock, .overboard-ask")).toBeVisible();
      await inPoses(page, i, name, language);
    }
  }
});

for (const language of ["en", "es"])
  test(`what the instruments are cause to tell, and alarms, in ${language}`, async ({ browser }) => {
    const gateway = await Gateway.open();
    gateway.depth = 18;
    const server = await startServer("--instruments", gateway.source);
    try {
      const page = await phone(browser, { baseURL: server.url });
      await comeAboard(page, server, "Ann", server.invite("skipper"));
      await page.goto("/#/lines");
      await page.evaluate((language) => localStorage.setItem("language", language), language);
      await reload(page);
      await answered(page);
      const inAll = (name: string, sign = page.locator("main")) =>
        standing(page, async () => {
          for (const pose of poseNames) {
            await hold(page, pose);
            // Much that the instruments say at one time is more than a boat's say: a little of it goes by until all fits again.
            await within(page, 8000, () => sign.isVisible());
            expect.soft(await faults(page), `${name} in ${language}, ${pose}`).toEqual([]);
            await draw(page, `${pose}, ${language}`, name);
          }
          await hold(page, "small phone");
        });
      await expect(page.locator(".brief")).toBeVisible();
      await inAll("lines-offer");
      await calm(page);
      await page.locator(".brief > .button").click();
      await expect(page.locator(".done")).toBeVisible();
      await inAll("lines-done");
      await pass(page, 10_000);
      // While time stands still the lures come no nearer to it than is let go by.
      await standing(page, async () => {
        const alarm = page.locator(".told-area .alarm");
        gateway.depth = 6;
        await within(page, 6000, () => alarm.isVisible());
        await inAll("lines-alarm", alarm);
        await calm(page);
        await page.locator(".touch-now").click();
        await within(page, 3000, () => page.locator(".done").isVisible());
        await inAll("lines-alarm-and-done", alarm);
        for (const place of ["pace", "pace/beat", "notes", "fish", "crew"]) {
          await page.evaluate((place) => {
            location.hash = `#/${place}`;
          }, place);
          await within(page, 3000, () => alarm.isVisible());
          await inAll(`${place.replace("/", "-")}-alarm`, alarm);
        }
      });
    } finally {
      gateway.close();
      await server.stop();
    }
  });

test.describe("the first screen", () => {
  test.use({ viewport: { width: 1280, height: 800 }, hasTouch: false });
  test("on a computer", async ({ page }) => {
    await page.goto("/");
    await expect(page.getByRole("heading").first()).toBeVisible();
    expect.soft(await faults(page)).toEqual([]);
    await inPalettes(page, "way-in");
  });
});

async function visit(page: Page, path: string): Promise<void> {
  await page.evaluate((path) => {
    location.hash = `#/${path}`;
  }, path);
  await expect(page.getByRole("heading").first()).toBeVisible();
  await quiet(page);
  await pass(page, 600);
}

/** What has no address of its own, with a sign that it is there: every pose in both languages. */
async function inBothLanguages(page: Page, name: string, sign: Locator): Promise<void> {
  for (const [i, language] of (["es", "en"] as const).entries()) {
    await page.evaluate((language) => localStorage.setItem("language", language), language);
    await reload(page);
    // What comes from the other phone comes when the app looks again.
    await expect(async () => {
      await pass(page, 3000);
      await expect(sign).toBeVisible({ timeout: 500 });
    }).toPass({ intervals: [100] });
    await quiet(page);
    await inPoses(page, i, name, language);
    if (draws) await scan(page, apartFromContrast, `${name} in ${language}`);
  }
  await hold(page, "small phone");
  await inPalettes(page, name);
}

/**
 * What axe has looked at, in each palette: where a screen shows nothing besides in a pose, it is not looked at again. Half of
 * the poses are looked at in each language: what a pose may change knows no words. Of English, the shorter of the two, the
 * layout is measured in these alone.
 */
async function inPoses(page: Page, from: number, name: string, language: "en" | "es"): Promise<void> {
  for (const [i, pose] of poseNames.entries()) {
    if (!draws && language === "en" && i % 2 !== from) continue;
    const what = `${name} in ${language}, ${pose}`;
    await hold(page, pose);
    expect.soft(await faults(page), what).toEqual([]);
    if (i % 2 === from) await judge(page, "day", name, what);
    await draw(page, `${pose}, ${language}`, name);
  }
}

/** What is longer than the screen is drawn to its end, from its head on: what stays in sight stands there. */
async function draw(page: Page, sheet: string, name: string): Promise<void> {
  if (!draws) return;
  await page.evaluate(() => scrollTo(0, 0));
  mkdirSync(join(folder, sheet), { recursive: true });
  const picture = await page.screenshot({ type: "jpeg", quality: 75, fullPage: true });
  writeFileSync(join(folder, sheet, `${name}.jpg`), picture);
}

/** A palette changes nothing but colours, and these not with the pose. */
async function inPalettes(page: Page, name: string): Promise<void> {
  await scan(page, apartFromContrast, name);
  for (const palette of palettes) {
    await page.evaluate((chosen) => {
      document.documentElement.dataset.palette = chosen;
      document.documentElement.style.backgroundColor = "";
    }, palette);
    await draw(page, palette, name);
    await judge(page, palette, name, `${name} in ${palette}`);
    if (palette === "night") expect.soft((await light(page)).other, `${name}, other light than red`).toBe(0);
  }
  await page.evaluate(() => {
    document.documentElement.dataset.palette = "day";
  });
  await page.emulateMedia(forced);
  expect.soft(await edgeless(page), `${name} with forced colours`).toEqual([]);
  await draw(page, "forced colours", name);
  await page.emulateMedia({ forcedColors: null });
}

const judgedIn = { day: new Set<string>(), dusk: new Set<string>(), night: new Set<string>() };

/** Words, fields and parts that move, which axe has not judged in this palette so far. */
async function judge(page: Page, palette: keyof typeof judgedIn, name: string, what: string): Promise<void> {
  const fresh = (await looks(page, name)).filter((one) => !judgedIn[palette].has(one));
  if (fresh.length === 0) return;
  await scan(page, { runOnly: [contrast[palette], moves] }, what, fresh);
  for (const one of await judgedLooks(page, name)) judgedIn[palette].add(one);
  for (const one of fresh) if (one.includes("> moves, ")) judgedIn[palette].add(one);
}

/**
 * Runs axe in the page itself, which has no frames: its own package for Playwright takes ten times as long. On all of it, or
 * where some looks were seen just now. Undefined while it is not there.
 */
const judged = (page: Page, rules: axe.RunOptions, among?: string[]) =>
  page.evaluate(
    async ({ rules, among }) => {
      const { axe: here } = window as unknown as { axe?: typeof axe };
      if (!here) return undefined;
      const judging = window as unknown as Judging;
      const there = among?.flatMap((look) => judging.seen?.get(look) ?? []).filter((one) => one.isConnected);
      const { violations, passes, incomplete, inapplicable } = await here.run(
        there ? { include: there } : document,
        {
          ...rules,
          elementRef: true,
          resultTypes: ["violations", "passes"],
        },
      );
      const nodes = [...violations, ...passes].flatMap(({ id, nodes }) =>
        id.startsWith("color-") ? nodes : [],
      );
      judging.judged = nodes.flatMap(({ element }) => element ?? []);
      return {
        wrong: violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`),
        looked: [...violations, ...passes].map(({ id }) => id),
        ran: [...violations, ...passes, ...incomplete, ...inapplicable].map(({ id }) => id),
      };
    },
    { rules, among },
  );

async function judgedBy(page: Page, rules: axe.RunOptions, among?: string[]) {
  const told = await judged(page, rules, among);
  if (told) return told;
  await page.evaluate(axe.source);
  return judged(page, rules, among);
}

/** On all of a page one of its rules has surely something to judge: unless it has, none was there. */
async function scan(page: Page, rules: axe.RunOptions, what: string, among?: string[]): Promise<void> {
  const told = await judgedBy(page, rules, among);
  if (among) expect(told?.ran, what).toEqual(expect.arrayContaining(rules.runOnly as string[]));
  else expect(told?.looked, what).toContain("page-has-heading-one");
  expect.soft(told?.wrong, what).toEqual([]);
}
