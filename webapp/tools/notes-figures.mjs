// How fast Notes opens on a phone that holds many trips, beside one that holds a single one; and how fast a mark is saved
// in a trip that is very long. The phones take turns.
import { bare, filled, goTo, storeCode } from "./seasons-figures.mjs";

async function phone(url, code, trips, entries, kit) {
  const { app, context, page } = await filled(url, code, trips, entries, kit);
  await page.close();
  return { app, looking: await bare(url, context), times: [] };
}

/** In the page: from a tap on Notes until its first note is painted, ms. */
const opened = async () => {
  const from = performance.now();
  const shown = new Promise((done) => {
    const seen = new MutationObserver(() => {
      if (!document.querySelector(".told")) return;
      seen.disconnect();
      requestAnimationFrame(() => setTimeout(done));
    });
    seen.observe(document.body, { childList: true, subtree: true });
  });
  document.querySelector('a[href="#/notes"]').click();
  await shown;
  return performance.now() - from;
};

/** In the page: from a tap on Mark until it is told that it is saved, which is after it is on the disk, ms. */
const marked = async () => {
  const from = performance.now();
  const told = new Promise((done) => {
    const seen = new MutationObserver(() => {
      if (!document.querySelector('main [role="status"] b')) return;
      seen.disconnect();
      done();
    });
    seen.observe(document.body, { childList: true, subtree: true });
  });
  document.querySelector(".mark-now").click();
  await told;
  return performance.now() - from;
};

const atLines = () => document.querySelector(".rod .readout") !== null;

/** So often by turns; what each takes. */
async function byTurns(phones, rounds, once) {
  for (let i = 0; i < rounds; i++) for (const { looking, times } of phones) times.push(await once(looking));
  for (const { app } of phones) await app.close();
  return phones.map(({ times }) => times.sort((a, b) => a - b));
}

async function open({ slow, told, until, quiet, pause }) {
  await told(goTo, "#/lines");
  await until(atLines);
  await quiet();
  await slow(4);
  const time = await told(opened);
  await pause(800);
  await slow(1);
  return time;
}

const mark = (url) => async (looking) => {
  await looking.load(`${url}/#/lines`);
  await looking.until(atLines);
  await looking.quiet();
  return looking.told(marked);
};

export async function notes(url, kit) {
  const code = await storeCode();
  const told = (all) => [all[0], kit.median(all), all.at(-1)].map((time) => time.toFixed(0)).join(" / ");
  const beside = ([one, other]) => (kit.median(other) / kit.median(one)).toFixed(2);

  const opens = [await phone(url, code, 1, 300, kit), await phone(url, code, 100, 300, kit)];
  const [one, many] = await byTurns(opens, 15, open);
  console.log("\nNotes opened, page 4× slower, from the tap to its first note; min, median, max of 15, ms");
  kit.row("with 100 trips of 300 entries (budget 300 ms)", told(many));
  kit.row("with one", told(one));
  kit.row("times as long", beside([one, many]));

  const trips = [await phone(url, code, 1, 10, kit), await phone(url, code, 1, 100_000, kit)];
  const [short, long] = await byTurns(trips, 7, mark(url));
  console.log("\nA mark saved, from the tap until it is told; min, median, max of 7, ms");
  kit.row("in a trip of 100,000 entries", told(long));
  kit.row("in a trip of 10", told(short));
  kit.row("times as long (budget 2)", beside([short, long]));
}
