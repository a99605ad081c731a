// How fast Notes opens on a phone that holds many trips, beside one that holds a single one; and how fast a mark is saved
// in a trip that is very long.
import { chromium } from "@playwright/test";
import { storeCode } from "./seasons-figures.mjs";

/** A phone with so many trips of so many entries. */
async function filled(url, code, trips, entries, { phone, browser }) {
  const app = await chromium.launch(browser);
  const page = await app.newPage(phone);
  await page.goto(`${url}/#/lines`);
  await page.waitForSelector(".rod .readout");
  await page.evaluate(
    `(async () => {
      ${code}
      const book = new store.Book();
      const uuid = () => crypto.randomUUID();
      const hour = 3600e3;
      const rods = ["1 port rigger", "2 starboard rigger", "3 port corner", "4 starboard corner"];
      const spread = { speed: 1.6, bottom: 15, rods: rods.map((place) => ({ place, rig: "40 lb wire, 8 in spoon", lure: "8 in spoon", lineOut: 60, drail: 0.2 })) };
      let last;
      for (let i = 0; i < ${trips}; i++) {
        const trip = last = uuid();
        const opened = Date.now() - 24 * hour * (${trips} - i);
        const every = Math.min(60e3, (24 * hour) / ${entries});
        const entry = (kind, set, n) => ({ id: uuid(), record: kind === "trip" ? trip : uuid(), kind, trip, prev: [], set, at: opened + n * every });
        const closed = i < ${trips} - 1 ? opened + 8 * hour : null;
        const of = (n) => n % 3 === 0
          ? entry("mark", { rod: rods[n % 4], fish: "striped bass", length: 0.8, fate: "released", lat: 41.25, lon: -71.5, accuracy: 5, spread }, n)
          : n % 3 === 1 ? entry("touch", { rod: rods[n % 4], bottom: 15, lineOut: 60, speed: 1.6, spread }, n)
          : entry("note", { text: "Birds over the ledge, tide about to turn, number " + n }, n);
        await book.append([entry("trip", { name: "Day " + (i + 1), opened, closed }, 0), ...Array.from({ length: ${entries} - 1 }, (_, n) => of(n + 1))]);
      }
      await book.setMeta("current", last);
      await book.close();
    })()`,
  );
  await page.reload();
  await page.waitForSelector(".rod .readout");
  await page.waitForTimeout(2000);
  return { app, page };
}

async function opens(url, code, trips, entries, kit) {
  const { app, page } = await filled(url, code, trips, entries, kit);
  const { slow, median } = kit;
  await slow(page);
  const times = [];
  for (let i = 0; i < 15; i++) {
    times.push(
      await page.evaluate(async () => {
        const from = performance.now();
        const shown = new Promise((done) => {
          const seen = new MutationObserver(() => {
            if (document.querySelectorAll(".told").length === 0) return;
            seen.disconnect();
            // Twice, so that it has been laid out and painted.
            requestAnimationFrame(() => requestAnimationFrame(done));
          });
          seen.observe(document.body, { childList: true, subtree: true });
        });
        location.hash = "#/notes";
        await shown;
        return performance.now() - from;
      }),
    );
    await page.evaluate(() => {
      location.hash = "#/lines";
    });
    await page.waitForTimeout(800);
  }
  // From nothing in memory: the page is loaded at Notes, and reads the log first.
  const cold = [];
  for (let i = 0; i < 5; i++) {
    await page.goto("about:blank");
    await page.goto(`${url}/#/notes`);
    await page.waitForSelector(".told");
    cold.push(await page.evaluate(() => performance.now()));
  }
  await app.close();
  return { open: median(times), cold: median(cold) };
}

// From the tap until it is told that the mark is saved, which is after it is on the disk.
async function marks(url, code, entries, kit) {
  const { app, page } = await filled(url, code, 1, entries, kit);
  const times = [];
  for (let i = 0; i < 7; i++) {
    await page.goto(`${url}/#/lines`);
    await page.waitForTimeout(1000);
    times.push(
      await page.evaluate(async () => {
        const button = [...document.querySelectorAll("button")].find((one) => one.textContent === "Mark");
        const from = performance.now();
        const told = new Promise((done) => {
          const seen = new MutationObserver(() => {
            if (!document.querySelector('main [role="status"] b')) return;
            seen.disconnect();
            done();
          });
          seen.observe(document.body, { childList: true, subtree: true });
        });
        button.click();
        await told;
        return performance.now() - from;
      }),
    );
  }
  await app.close();
  return kit.median(times);
}

export async function notes(url, kit) {
  const code = await storeCode();
  const many = await opens(url, code, 100, 300, kit);
  const one = await opens(url, code, 1, 300, kit);
  console.log("\nNotes with 100 trips of 300 entries, page 4× slower, median");
  kit.row("from the tap to the painted timeline (budget 300 ms)", kit.ms(many.open));
  kit.row("the same with 1 trip of 300 entries", kit.ms(one.open));
  kit.row("page loaded at Notes, to the first note", kit.ms(many.cold));
  kit.row("the same with 1 trip of 300 entries", kit.ms(one.cold));
  const [long, short] = [await marks(url, code, 100_000, kit), await marks(url, code, 10, kit)];
  console.log("\nA mark saved, from the tap until it is told, median of 7");
  kit.row("in a trip of 100,000 entries", kit.ms(long));
  kit.row("in a trip of 10", kit.ms(short));
  kit.row("times as long (budget 2)", (long / short).toFixed(2));
}
