// What a phone with many seasons aboard takes for what is done most, beside one that has a single trip: the phones take
// turns, so that whatever else the machine does weighs on all of them alike.
import { join } from "node:path";
import { chromium } from "@playwright/test";
import { build } from "vite";
import { look, watch } from "./look.mjs";

// The log's own store, to fill the database with: what it writes is what the app reads.
export async function storeCode() {
  const entry = join(import.meta.dirname, "../src/state/log/disk/book.ts");
  const [{ output }] = await build({
    configFile: false,
    logLevel: "error",
    build: { write: false, lib: { entry, formats: ["iife"], name: "store" } },
  });
  return output[0].code;
}

/** In the page: begins so many trips of so many entries, a third of them touches with all that calibration asks. */
async function fill({ trips, entries, like }) {
  const book = new window.store.Book();
  const uuid = () => crypto.randomUUID();
  const uuid7 = () => uuid().replace(/^(.{14})4/, "$17");
  const hour = 3600e3;
  const rods = ["1 port rigger", "2 starboard rigger", "3 port corner", "4 starboard corner"];
  let last;
  for (let i = 0; i < trips; i++) {
    const trip = uuid();
    last = trip;
    const opened = Date.now() - 24 * hour * (trips - 1 - i) - hour;
    const every = hour / entries;
    const entry = (kind, set, n) => ({
      id: uuid7(),
      record: kind === "trip" ? trip : uuid(),
      ...{ kind, trip, prev: [], set, at: opened + n * every },
    });
    const closed = i < trips - 1 ? opened + hour : null;
    const { spread } = like;
    const of = (n) => {
      const rod = rods[n % 4];
      const place = { lat: 41.25 + (n % 97) / 1000, lon: -71.5, accuracy: 5 };
      if (n % 3 === 0)
        return entry(
          "mark",
          { ...place, rod, fish: "striped bass", length: 0.8, fate: "released", spread },
          n,
        );
      if (n % 3 === 1)
        return entry("touch", { ...like, ...place, bottom: 15 + (n % 5) / 10, lineOut: 60 + (n % 7) }, n);
      const rare = i === 0 && n === 2 ? "a zander" : "birds";
      return entry("note", { text: `Saw ${rare} over the ledge, tide about to turn, number ${n}` }, n);
    };
    const begun = entry("trip", { name: `Day ${i + 1}`, opened, closed }, 0);
    await book.append([begun, ...Array.from({ length: entries - 1 }, (_, n) => of(n + 1))]);
  }
  await book.setMeta("current", last);
  await book.close();
}

/** In the page: what the last touch noted says, with all that calibration asks. */
const lastTouch = () =>
  new Promise((done, fail) => {
    const open = indexedDB.open("wirewake-log");
    open.onerror = () => fail(open.error);
    open.onsuccess = () => {
      const db = open.result;
      const all = db.transaction("entries").objectStore("entries").index("kind").getAll("touch");
      all.onsuccess = () => {
        db.close();
        done(all.result.at(-1)?.set);
      };
    };
  });

/** In the page: all that is kept beside the entries is made. */
const isProjected = () =>
  new Promise((done) => {
    const open = indexedDB.open("wirewake-log");
    open.onsuccess = () => {
      const db = open.result;
      const state = db.transaction("meta").objectStore("meta").get("projected");
      state.onsuccess = () => {
        db.close();
        done(Boolean(state.result?.words));
      };
    };
  });

/** A browser of its own with a phone that has so many trips. */
export async function filled(url, code, trips, entries, { phone, browser }) {
  const app = await chromium.launch(browser);
  const context = await app.newContext(phone);
  const page = await context.newPage();
  await page.goto(`${url}/#/lines`);
  await page.waitForSelector(".rod .readout:not(:text('–'))");
  await page.locator(".touch-now").first().click();
  await page.waitForTimeout(1500);
  const like = await page.evaluate(lastTouch);
  await page.evaluate(`${code}; window.store = store;`);
  await page.evaluate(fill, { trips, entries, like });
  await page.reload();
  await page.waitForSelector(".rod .readout");
  const from = Date.now();
  while (!(await page.evaluate(isProjected))) await page.waitForTimeout(500);
  console.log(`  (${trips} trips as an app without projections left them: made in ${Date.now() - from} ms)`);
  return { app, context, page };
}

/** Looks at a page that Playwright has put nothing in. */
export async function bare(url, context) {
  const page = await context.newPage();
  await page.addInitScript(watch);
  const looking = await look(page);
  await looking.load(`${url}/#/lines`);
  return looking;
}

/** In the page: from a tap on What brought fish, among the trips, until its first rates are drawn, ms. */
const firstPicture = async () => {
  const from = performance.now();
  const shown = new Promise((done) => {
    const seen = new MutationObserver(() => {
      if (!document.querySelector(".rates li")) return;
      seen.disconnect();
      requestAnimationFrame(() => requestAnimationFrame(done));
    });
    seen.observe(document.body, { childList: true, subtree: true });
  });
  document.querySelector('a[href="#/notes/season"]').click();
  await shown;
  return performance.now() - from;
};

/** All of a season is read once, at full speed: from then on there is a picture of it that was kept. */
async function keepPicture(url, page) {
  await page.goto(`${url}/#/notes/season`);
  await page.waitForSelector(".rates li");
  await page.waitForFunction(
    () =>
      new Promise((done) => {
        const open = indexedDB.open("wirewake");
        open.onsuccess = () => {
          const kept = open.result.transaction("kept").objectStore("kept").count("season");
          kept.onsuccess = () => {
            open.result.close();
            done(kept.result > 0);
          };
        };
      }),
    undefined,
    { polling: 500, timeout: 120_000 },
  );
}

const areTrips = () => document.querySelector("main .links a") !== null;

/** How long What brought fish takes right after the app was loaded, and opened again. */
async function pictures(url, { told, until, load, pause }) {
  // The trips are told as soon as they are read: the app still does what it does after each start.
  await load(`${url}/#/notes/past`);
  await until(areTrips);
  const season = await told(firstPicture);
  await pause(1000);
  await told(goTo, "#/notes/past");
  await until(areTrips);
  await pause(500);
  return { season, seasonAgain: await told(firstPicture) };
}

export const goTo = (hash) => {
  location.hash = hash;
};

/** In the page: from a word typed among the trips until its first hit is drawn, ms. */
const search = async (word) => {
  const input = document.querySelector('input[type="search"]');
  const from = performance.now();
  const hit = new Promise((done) => {
    const seen = new MutationObserver(() => {
      if (![...document.querySelectorAll(".links a")].some((one) => /zander/.test(one.textContent))) return;
      seen.disconnect();
      requestAnimationFrame(() => setTimeout(done));
    });
    seen.observe(document.body, { childList: true, subtree: true, characterData: true });
  });
  input.value = word;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  await hit;
  return performance.now() - from;
};

/** One round of all that is measured, ms. */
async function round(url, looking) {
  const { slow, told, until, busy, quiet, load, pause, longest } = looking;
  const out = {};
  await slow(4);
  await load(`${url}/#/lines`);
  out.lines = await quiet();
  out.linesTask = await longest();

  const from = await busy();
  await told(() => document.querySelector(".mark-now").click());
  out.mark = (await quiet()) - from;
  out.markTask = await longest();

  await load(`${url}/#/notes`);
  await until(() => window.drawn > 0);
  await quiet();
  out.notes = await told(() => window.drawn);
  out.notesTask = await longest();

  for (const [name, word] of [
    ["searchFirst", "zander"],
    ["search", "zand"],
  ]) {
    await told(goTo, "#/notes/past");
    await until(() => document.querySelector('input[type="search"]') !== null);
    await quiet();
    await longest();
    out[name] = await told(search, word);
    await quiet();
    out[`${name}Task`] = await longest();
    await told(goTo, "#/notes");
    await pause(300);
  }
  const shown = await pictures(url, looking);
  await slow(1);
  return { ...out, ...shown };
}

const rows = {
  mark: "one tap on Mark, main thread",
  notes: "cold load at Notes, to the first note",
  lines: "main thread after opening Lines",
  searchFirst: "search, rare word, the first one",
  search: "search, rare word, the next",
  season: "What brought fish, first picture, app just loaded (budget 300 ms)",
  seasonAgain: "the same opened again a second later",
  markTask: "longest task, Mark (0: none as long as 50 ms)",
  notesTask: "longest task after the first paint, Notes",
  linesTask: "longest task after the first paint, Lines",
  searchFirstTask: "longest task, first search",
  searchTask: "longest task, next search",
};

export async function seasons(url, kit, counts = [1, 10, 100, 300], rounds = 5) {
  const code = await storeCode();
  const phones = [];
  for (const trips of counts) {
    const { app, context, page } = await filled(url, code, trips, 300, kit);
    await keepPicture(url, page);
    await page.close();
    phones.push({ trips, app, looking: await bare(url, context), all: [] });
  }
  for (let i = 0; i < rounds; i++)
    for (const phone of phones) phone.all.push(await round(url, phone.looking));
  for (const { app } of phones) await app.close();
  console.log(
    `\nTrips of 300 entries on the phone, a third touches; page 4× slower; min, median, max of ${rounds} by turns`,
  );
  for (const [name, what] of Object.entries(rows)) {
    const anchor = kit.median(phones[0].all.map((one) => one[name]));
    for (const { trips, all } of phones) {
      const times = all.map((one) => one[name]).sort((a, b) => a - b);
      const mid = kit.median(times);
      const beside =
        anchor > 0 && trips !== phones[0].trips
          ? `  ${(mid / anchor).toFixed(2)} times ${phones[0].trips} trip`
          : "";
      kit.row(
        `${what}, ${trips} trip${trips === 1 ? "" : "s"}`,
        `${[times[0], mid, times.at(-1)].map((x) => x.toFixed(0)).join(" / ")} ms${beside}`,
      );
    }
  }
}
