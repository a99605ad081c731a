/** Every screen of the app, by a name for its picture. */
import { expect, type Page, settled, type } from "./app";
import { type Boat, kn, steadily, turning } from "./boat";
import { demoFile } from "./demo-season";
import { chooseWaters, lookUp, measured, peopleAboard, tap } from "./fish";
import { calm, closeTrip, comeAboard, mark, startTrip, writeNote } from "./notes";
import { pass, reload } from "./phone";
import type { Server } from "./server";
import { contradictory } from "./touches";

const way = { water: 2.7 * kn, heading: 0.7, drift: 0.6 * kn, set: 3.5 };

/** The way to a screen: what stands for an id in its address is found on the page itself. */
type Way = (page: Page, boat: Boat) => Promise<string>;

/** In parts that can be looked at on their own; within one, a screen may need what those before it left. */
export const screens: { [part: string]: { [name: string]: Way } } = {
  lines: {
    lines: async () => "lines",
    rod: async (page) => `lines/rod/${await selectedRod(page)}`,
    card: async (page) => `lines/card/${await selectedRod(page)}`,
    drail: async (page) => `lines/drail/${await selectedRod(page)}`,
    slow: async (page) => `lines/slow/${await selectedRod(page)}`,
    rig: async (page) => `lines/rig/${await selectedRod(page)}`,
    wanted: async () => "lines/wanted",
    turn: async (page) => {
      await page.goto("/#/lines/turn");
      await expect(page.locator(".turn-rods li").first()).toBeVisible();
      return "lines/turn";
    },
    "touches-none": async () => "lines/touches",
    touches: async (page) => {
      await calm(page);
      for (const [lineOut, bottom] of contradictory) {
        await setOnLines(page, "Line out", lineOut);
        await setOnLines(page, "Bottom", bottom);
        await calm(page);
        await page.getByRole("button", { name: "It touched" }).click();
      }
      await setOnLines(page, "Bottom", "50");
      await settled(page);
      return "lines/touches";
    },
    "lines-contradiction": async () => "lines",
    "rod-learned": async (page) => `lines/rod/${await selectedRod(page)}`,
    plan: async () => "lines/plan",
    "plan-card": async () => "lines/plan/0",
    "drails-aboard": async () => "lines/drails",
    "rise-none": async () => "lines/rise",
    rise: async (page) => {
      await page.goto("/#/lines/rise");
      await calm(page);
      await page.getByRole("button", { name: "Still" }).click();
      await pass(page, 1200);
      await type(page.getByRole("group", { name: "Depth now" }), "38");
      await expect(page.getByText("Rise ahead")).toBeVisible();
      return "lines/rise";
    },
    "lines-rise": async (page) => {
      await page.getByText("Rise ahead").scrollIntoViewIfNeeded();
      return "lines";
    },
    "lines-foot": async (page) => {
      await page.locator(".rod-list-foot").scrollIntoViewIfNeeded();
      return "lines";
    },
  },
  "pace and notes": {
    "pace-none": async () => "pace",
    "pace-guess": async (page, boat) => {
      await page.goto("/#/pace");
      await boat.run(steadily(way, 10));
      return "pace";
    },
    find: async () => "pace/find",
    turning: async (page, boat) => {
      await page.goto("/#/pace/find");
      await calm(page);
      await page.getByRole("button", { name: "By a turn" }).click();
      await boat.run(turning(way, 5, 60), 40);
      await expect(page.getByText("Good.")).toBeVisible();
      return "pace/find";
    },
    pace: async (page, boat) => {
      await page.goto("/#/pace/find");
      await calm(page);
      await page.getByRole("button", { name: "Use this current" }).click();
      await boat.run(steadily(way, 10));
      return "pace";
    },
    beat: async () => "pace/beat",
    steer: async () => "pace/steer",
    "type-pace": async () => "pace/type",
    "wanted-speed": async () => "pace/wanted",
    "pace-how": async () => "pace/how",
    notes: async () => "notes",
    told: async (page) => (await firstNote(page, "Hookup")).replace("/record/", "/told/"),
    record: (page) => firstNote(page, "Striped bass"),
    "struck-record": (page) => firstNote(page, "Struck out"),
    "photo-record": (page) => firstNote(page, "Photo"),
    trip: (page) => tripHere(page),
    touch: async () => "notes/touch",
    "more-to-note": async () => "notes/add",
    "new-note": async () => "notes/new/note",
    trouble: async () => "notes/new/trouble",
    photo: async () => "notes/new/photo",
    bag: async () => "notes/new/bag",
    past: async () => "notes/past",
    unsent: async () => "notes/unsent",
    "trip-over": async (page) => {
      await page.goto("/#/notes");
      const [, path = ""] =
        /#\/(.*)/.exec((await page.locator("a.notes-trip").getAttribute("href")) ?? "") ?? [];
      await page.goto(`/#/${path}`);
      await calm(page);
      await closeTrip(page);
      return path;
    },
    season: async (page) => {
      await page.goto("/#/notes/past");
      await calm(page);
      await page.locator('input[type="file"]').setInputFiles(demoFile());
      await expect(page.getByText(/\d notes came in/)).toBeVisible();
      await page.goto("/#/notes/season");
      await expect(page.getByText("So far", { exact: true })).toBeVisible();
      return "notes/season";
    },
    "season-day": (page) => demoTrip(page, "day"),
    "season-back": async (page) => {
      await page.goto(`/#/${await demoTrip(page, "day")}`);
      const link = page.getByRole("link", { name: "Put me back there" }).first();
      return ((await link.getAttribute("href")) ?? "").slice(2);
    },
    "season-trip": (page) => demoTrip(page, "trip"),
    keepsake: async (page) => (await tripHere(page)).replace("/trip/", "/keep/"),
    papers: async () => "notes/papers",
    // Last: from here on it is another day.
    "notes-old-trip": async (page) => {
      const before = await noted(page, "boat");
      await startTrip(page);
      // The phone notes by itself which boat it is: that is of the day before too.
      await expect.poll(() => noted(page, "boat")).toBeGreaterThan(before);
      // The boat's server would say that it is no later than it was, and so would an answer of its that is on its way.
      await page.context().setOffline(true);
      await reload(page);
      await page.clock.setSystemTime(Date.now() + 48 * 3600_000);
      await page.goto("/#/lines");
      await reload(page);
      await page.goto("/#/notes");
      await expect(page.getByText("A trip was never closed.")).toBeVisible();
      return "notes";
    },
  },
  fish: {
    "fish-empty": async () => "fish",
    "fish-aged": async (page) => {
      await chooseWaters(page);
      await measured(page, "29.5");
      return page.url().split("#/")[1] ?? "";
    },
    "fish-rules": async () => "fish/rules",
    "fish-land": async (page) => {
      await lookUp(page);
      await peopleAboard(page, "Ann", "Ben");
      return fishAt(page, "land");
    },
    "fish-measure": (page) => fishAt(page, "measure"),
    "fish-judge": (page) => fishAt(page, "judge"),
    "fish-over": async (page) => {
      await measured(page, "31");
      return page.url().split("#/")[1] ?? "";
    },
    "fish-release": (page) => fishAt(page, "release"),
    "fish-bleed": async (page) => {
      await measured(page, "29.5");
      await calm(page);
      await page.getByRole("button", { name: /^Ann/ }).click();
      await tap(page, "Cut made");
      return page.url().split("#/")[1] ?? "";
    },
    "fish-slush": async (page) => {
      const slush = await fishAt(page, "slush");
      await page.goto(`/#/${slush}`);
      await tap(page, "In the slush now");
      return slush;
    },
    fish: async () => "fish",
    "fish-set": async (page) => {
      await page.goto("/#/fish/rules");
      return ((await page.locator(".links a").first().getAttribute("href")) ?? "").slice(2);
    },
    "fish-rule": async (page) => {
      await page.goto("/#/fish/rules");
      await page.locator(".links a").first().click();
      await calm(page);
      return ((await page.locator(".links a").first().getAttribute("href")) ?? "").slice(2);
    },
    "fish-ice": async () => "fish/ice",
    "fish-box": async () => "fish/box/long",
    "fish-weight": async () => "fish/weight",
    "fish-keeping": async () => "fish/keeping",
  },
  crew: {
    crew: async () => "crew",
    ...Object.fromEntries(
      Array.from({ length: 14 }, (_, i) => [`briefing-${i + 1}`, async () => `crew/briefing/${i + 1}`]),
    ),
    briefed: async () => "crew/briefed",
    radio: async () => "crew/radio",
    boat: async () => "crew/boat",
    checklist: async () => "crew/list/leaving",
    "change-list": async () => "crew/change/turn",
    "float-plan": async () => "crew/floatplan",
    "crew-gear": async () => "crew/gear",
    "overboard-other": async (page) => {
      for (const of of ["one", "another"]) {
        await page.goto("/#/crew");
        await calm(page);
        await page.getByRole("button", { name: "Overboard" }).click();
        await calm(page);
        await page.getByRole("button", { name: /^Yes/ }).click();
        await expect(page.getByRole("button", { name: "Over" }).first(), of).toBeVisible();
      }
      return ((await page.locator('a[href^="#/overboard/"]').first().getAttribute("href")) ?? "").slice(2);
    },
    "gear-trouble": async (page) =>
      `crew/trouble/${(await firstOf(page, "wires")).slice("gear/".length).replace("/", ".")}`,
  },
  emergencies: {
    weather: async () => "crew/weather",
    help: async () => "help",
    ...Object.fromEntries(
      ["alone", "bleeding", "hook", "fire", "cold", "abandon"].map((page) => [
        page,
        async () => `help/${page}`,
      ]),
    ),
    // Last: its alarm stands on every page from then on.
    overboard: async (page) => {
      await page.locator(".overboard-button").click();
      await calm(page);
      await page.getByRole("button", { name: "Yes: overboard" }).click();
      await expect(page.locator(".overboard-since")).toBeVisible();
      return "overboard";
    },
    "overboard-way": async (page, boat) => {
      await boat.run(steadily(way, 20));
      await page.goto("/#/overboard");
      await expect(page.locator(".way-back")).toBeVisible();
      return "overboard";
    },
    "lines-overboard": async () => "lines",
  },
  locker: {
    enrol: async () => "enrol",
    invite: async () => "enrol/invite",
    phones: async (page) => {
      await page.goto("/#/enrol/phones");
      await expect(page.locator('a[href^="#/enrol/phone/"]').first()).toBeVisible();
      return "enrol/phones";
    },
    gear: async () => "gear",
    wires: async () => "gear/wires",
    spoon: (page) => firstOf(page, "spoons"),
    "own-rig": (page) => firstOf(page, "rigs"),
    ...Object.fromEntries(
      ["wires", "nylons", "drails", "places"].map((kind) => [
        `one-of-${kind}`,
        (page: Page) => firstOf(page, kind),
      ]),
    ),
    locker: async () => "locker",
    ready: async () => "locker/ready",
    install: async (page) => {
      await page.goto("/#/locker/install");
      await calm(page);
      await page.getByRole("radio", { name: "iPhone, iPad" }).check();
      return "locker/install";
    },
    water: async () => "locker/water",
    "how-sure": async () => "locker/doubt",
    cautions: async () => "locker/cautions",
    about: async () => "locker/about",
  },
};

/** A page of the fish that is in hand last; of one that comes up now where there is none. */
async function fishAt(page: Page, step: string): Promise<string> {
  await page.goto("/#/fish");
  const hands = page.getByRole("link", { name: /Go on/ });
  if ((await hands.count()) === 0) await measured(page, "29.5");
  await page.goto("/#/fish");
  const link = await hands.last().getAttribute("href");
  return `fish/${step}/${link?.split("/").at(-1)}`;
}

/** On a wide screen every dial has its stepper. */
async function setOnLines(page: Page, name: string, typed: string): Promise<void> {
  const dial = page.locator(".dial", { hasText: name });
  if (await dial.isVisible()) await dial.click();
  await type(page.getByRole("group", { name }), typed);
}

async function selectedRod(page: Page): Promise<string> {
  const link = await page.locator(".rod-more a").first().getAttribute("href");
  return link?.split("/").at(-1) ?? "";
}

async function firstOf(page: Page, kind: string): Promise<string> {
  await page.goto(`/#/gear/${kind}`);
  return ((await page.locator(".links a").first().getAttribute("href")) ?? "").slice(2);
}

async function firstNote(page: Page, what: string): Promise<string> {
  await page.goto("/#/notes");
  const note = page.locator(".told", { hasText: what }).first();
  return ((await note.getAttribute("href")) ?? "").slice(2);
}

/** The trip that runs, or the one last noted in. */
async function tripHere(page: Page): Promise<string> {
  await page.goto("/#/notes/past");
  const link = page.locator('a[href*="notes/trip/"]').first();
  return ((await link.getAttribute("href")) ?? "").slice(2);
}

/** A page of a trip of the invented season. */
async function demoTrip(page: Page, what: string): Promise<string> {
  await page.goto("/#/notes/past");
  const link = page.getByRole("link", { name: /Demo trip 7/ });
  return ((await link.getAttribute("href")) ?? "").slice(2).replace("/trip/", `/${what}/`);
}

/** How many entries of a kind are on the disk. */
const noted = (page: Page, kind: string): Promise<number> =>
  page.evaluate(
    (kind) =>
      new Promise<number>((done, fail) => {
        const opening = indexedDB.open("wirewake-log");
        opening.onerror = () => fail(opening.error);
        opening.onsuccess = () => {
          const asked = opening.result
            .transaction("entries")
            .objectStore("entries")
            .index("kind")
            .count(kind);
          asked.onsuccess = () => {
            opening.result.close();
            done(asked.result);
          };
        };
      }),
    kind,
  );

/** What Notes and Aboard look like in use: aboard as the skipper, with a few notes. */
export async function prepare(page: Page, server: Server): Promise<void> {
  await comeAboard(page, server, "Ann", server.invite("skipper"));
  await startTrip(page);
  await mark(page);
  await page.getByRole("radio", { name: "2 starboard rigger" }).click();
  await page.getByRole("radio", { name: "Striped bass" }).click();
  await page.getByRole("button", { name: "One more" }).click();
  await calm(page);
  await page.getByRole("button", { name: "Undo" }).click();
  await writeNote(page, "Birds working over the ledge, tide just turned.");
  await page.goto("/#/notes/new/photo");
  const picture = await page.screenshot();
  await page
    .locator('input[type="file"]')
    .setInputFiles({ name: "p.png", mimeType: "image/png", buffer: picture });
  await expect(page.getByText("Saved.")).toBeVisible();
  await page.goto("/#/crew/boat");
  await page.getByLabel("Name of the boat").fill("Petrel");
  await page.getByLabel("Name of the boat").blur();
  await page.goto("/#/crew/briefed");
  await calm(page);
  await page.getByLabel("First name or nickname").fill("Sam");
  await page.getByRole("button", { name: "I have heard it" }).click();
  await page.goto("/#/crew/list/leaving");
  await calm(page);
  await page.getByRole("button", { name: "Life jacket" }).click();
  await expect(page.getByText(/this phone, /)).toBeVisible();
}
