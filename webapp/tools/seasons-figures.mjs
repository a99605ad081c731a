// What a phone with many seasons aboard takes for what is done most, beside one that has a single trip: the phones take
// turns, so that whatever else the machine does weighs on all of them alike.
import { join } from "node:path";
import { chromium } from "@playwright/test";
import { build } from "vite";

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
  await context.addInitScript(() => {
    window.tasks = [];
    new PerformanceObserver((list) => {
      for (const { startTime, duration } of list.getEntries()) window.tasks.push({ startTime, duration });
    }).observe({ type: "longtask", buffered: true });
  });
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
  return { app, page, cdp: await context.newCDPSession(page) };
}

const busy = async (cdp) => {
  const { metrics } = await cdp.send("Performance.getMetrics");
  return metrics.find(({ name }) => name === "TaskDuration").value * 1000;
};

/** Until the page's own thread has next to nothing to do for a while, ms. */
async function quiet(page, cdp, most = 60_000) {
  for (let waited = 0, still = 0, before = await busy(cdp); still < 4 && waited < most; waited += 250) {
    await page.waitForTimeout(250);
    const now = await busy(cdp);
    still = now - before < 15 ? still + 1 : 0;
    before = now;
  }
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

/** How long What brought fish takes right after the app was loaded, and opened again. */
async function pictures(url, page) {
  await page.goto("about:blank");
  await page.goto(`${url}/#/notes/past`);
  // The trips are told as soon as they are read: the app still does what it does after each start.
  await page.waitForSelector("main .links a");
  const season = await page.evaluate(firstPicture);
  await page.waitForTimeout(1000);
  await page.evaluate(() => {
    location.hash = "#/notes/past";
  });
  await page.waitForSelector("main .links a");
  await page.waitForTimeout(500);
  return { season, seasonAgain: await page.evaluate(firstPicture) };
}

const longest = (page) => page.evaluate(() => Math.max(0, ...window.tasks.map(({ duration }) => duration)));

/** One round of all that is measured, ms. */
async function round(url, { page, cdp }) {
  const out = {};
  await page.goto("about:blank");
  let from = await busy(cdp);
  await page.goto(`${url}/#/lines`);
  await quiet(page, cdp);
  out.lines = (await busy(cdp)) - from;
  out.linesTask = await longest(page);

  await page.evaluate(() => window.tasks.splice(0));
  from = await busy(cdp);
  await page.evaluate(() => document.querySelector(".mark-now").click());
  await quiet(page, cdp);
  out.mark = (await busy(cdp)) - from;
  out.markTask = await longest(page);

  await page.goto("about:blank");
  await page.goto(`${url}/#/notes`);
  await page.waitForSelector(".told", { timeout: 120_000 });
  out.notes = await page.evaluate(() => performance.now());
  await quiet(page, cdp);
  out.notesTask = await longest(page);

  for (const [name, word] of [
    ["searchFirst", "zander"],
    ["search", "zand"],
  ]) {
    await page.evaluate(() => {
      location.hash = "#/notes/past";
    });
    await page.waitForSelector('input[type="search"]');
    await quiet(page, cdp);
    out[name] = await page.evaluate(async (word) => {
      window.tasks.splice(0);
      const input = document.querySelector('input[type="search"]');
      const from = performance.now();
      const hit = new Promise((done) => {
        const seen = new MutationObserver(() => {
          if (![...document.querySelectorAll(".links a")].some((one) => /zander/.test(one.textContent)))
            return;
          seen.disconnect();
          done();
        });
        seen.observe(document.body, { childList: true, subtree: true, characterData: true });
      });
      input.value = word;
      input.dispatchEvent(new Event("input", { bubbles: true }));
      await hit;
      return performance.now() - from;
    }, word);
    await quiet(page, cdp);
    out[`${name}Task`] = await longest(page);
    await page.evaluate(() => {
      location.hash = "#/notes";
    });
    await page.waitForTimeout(300);
  }
  return { ...out, ...(await pictures(url, page)) };
}

const rows = {
  mark: "one tap on Mark, main thread",
  notes: "cold load at Notes, to the first note",
  lines: "main thread after opening Lines",
  searchFirst: "search, rare word, the first one",
  search: "search, rare word, the next",
  season: "What brought fish, first picture, app just loaded (budget 300 ms)",
  seasonAgain: "the same opened again a second later",
  markTask: "longest task, Mark",
  notesTask: "longest task, Notes",
  linesTask: "longest task, Lines",
  searchFirstTask: "longest task, first search",
  searchTask: "longest task, next search",
};

export async function seasons(url, kit, counts = [1, 10, 100, 300], rounds = 5) {
  const code = await storeCode();
  const phones = [];
  for (const trips of counts) {
    const one = await filled(url, code, trips, 300, kit);
    await keepPicture(url, one.page);
    await one.cdp.send("Performance.enable");
    await one.cdp.send("Emulation.setCPUThrottlingRate", { rate: 4 });
    phones.push({ trips, ...one, all: [] });
  }
  for (let i = 0; i < rounds; i++) for (const phone of phones) phone.all.push(await round(url, phone));
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
