/** Whatever the server takes, and whatever an older app took, every page of the app still shows, and Mark marks. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { anyEntry, inherited, unkept } from "../src/state/entry/any";
import { type Entry, faultOf } from "../src/state/entry/entry";
import { uuid } from "../src/state/entry/uuid";
import { expect, type Page, test, watch } from "./app";
import { calm, comeAboard, exchangeNow, mark, row, startTrip } from "./notes";
import { pass, reload } from "./phone";

const root = join(import.meta.dirname, "../..");

/** The cases of the contract that the server must take, each a record of its own in this trip. */
function taken(trip: string): Entry[] {
  const { base, cases } = JSON.parse(
    readFileSync(join(root, "server/log/contract/entries.json"), "utf8"),
  ) as { base: Entry; cases: { code: string; with: Partial<Entry>; without?: (keyof Entry)[] }[] };
  return cases
    .filter(({ code }) => code === "")
    .map(({ with: change, without = [] }) => {
      const entry = { ...base, ...change, id: uuid(), trip };
      entry.record = entry.kind === "trip" ? trip : uuid();
      for (const field of without) delete entry[field];
      return entry;
    });
}

/** Sends entries as this phone's own, past the app; returns the codes of those that were refused. */
async function send(page: Page, entries: Entry[]): Promise<Map<string, string>> {
  const refused = new Map<string, string>();
  for (let from = 0; from < entries.length; from += 150) {
    const answer = await page.evaluate(
      async (entries) => {
        const reply = await fetch("/api/exchange", {
          method: "POST",
          headers: { "content-type": "application/json" },
          body: JSON.stringify({ version: 1, most: 1, entries }),
        });
        return { status: reply.status, ...(await reply.json()) };
      },
      entries.slice(from, from + 150),
    );
    expect(answer.status, answer.text).toBe(200);
    for (const { id, code } of answer.refused) refused.set(id, code);
  }
  return refused;
}

/** All that this phone holds. */
const heldIn = (page: Page): Promise<{ id: string; kind: string; record: string }[]> =>
  page.evaluate(
    () =>
      new Promise((done, fail) => {
        const opening = indexedDB.open("wirewake-log");
        opening.onerror = fail;
        opening.onsuccess = () => {
          const all = opening.result.transaction("entries").objectStore("entries").getAll();
          all.onsuccess = () => {
            opening.result.close();
            done(all.result.map(({ id, kind, record }) => ({ id, kind, record })));
          };
        };
      }),
  );

/** The addresses of all pages, as the app itself lists them. */
function pagesOf(gear: string[]): string[] {
  const source = readFileSync(join(root, "webapp/src/app/routes.ts"), "utf8");
  const paths = [...source.matchAll(/path: ["`]([^"`]+)["`]/g)].map(([, path]) => path as string);
  expect(paths.length).toBeGreaterThan(50);
  return paths.flatMap((path) =>
    // biome-ignore lint/suspicious/noTemplateCurlyInString: so it stands in the source
    path.includes("${kind}") ? gear.map((kind) => path.replace("${kind}", kind)) : [path],
  );
}

/** Opens an address: what was there before goes, and what comes shows itself. */
async function opens(page: Page, path: string): Promise<void> {
  await page.evaluate((path) => {
    document.querySelector("main")?.setAttribute("data-before", "");
    location.hash = `#/${path}`;
  }, path);
  await expect(page.locator("main:not([data-before])"), path).toBeVisible();
  await pass(page, 200);
  // A trip of very many entries takes a moment to be read.
  await expect(page.locator("main"), `${path} is blank`).toContainText(/\S/);
  await sound(page, path);
}

const sound = async (page: Page, path: string) =>
  expect(await page.locator(".notice", { hasText: "by a fault of the app" }).count(), `${path} fails`).toBe(
    0,
  );

/** Until all rows of a trip are drawn: that happens part by part, and of the oldest only when asked for. Returns how many. */
async function drawnWhole(page: Page): Promise<number> {
  const rows = page.locator(".timeline .told, .timeline .unreadable");
  const older = page.getByRole("button", { name: /^Show older notes/ });
  await expect(older).toBeVisible();
  const all = (await rows.count()) + Number(/\d+/.exec(await older.innerText()));
  await expect(async () => {
    await calm(page);
    if (await older.isVisible()) await older.click();
    expect(await rows.count()).toBe(all);
  }).toPass({ intervals: [0], timeout: 120_000 });
  await sound(page, "the whole trip");
  return all;
}

const links = (page: Page, within: string): Promise<string[]> =>
  page.locator(`${within} a`).evaluateAll((all) => all.map((a) => a.getAttribute("href")?.slice(2) ?? ""));

const places = ["lines", "pace", "notes", "fish", "crew"];

test("whatever a guest brings, every page of the skipper's phone still shows, and Mark marks", async ({
  page,
  aboard,
  server,
}) => {
  const faults = watch(page);
  await comeAboard(page, server, "Ann", server.invite("skipper"));
  await startTrip(page);
  await expect(page.locator("a.notes-trip")).toBeVisible();
  const trip = (await page.locator("a.notes-trip").getAttribute("href"))?.split("/").at(-1) ?? "";
  await exchangeNow(page);

  // Out of reach meanwhile, so that all of it comes at once.
  await page.context().setOffline(true);

  const generated = fc
    .sample(anyEntry([trip]), { numRuns: 600, seed: 20310601 })
    .filter((entry) => !faultOf(entry));
  const hostile = [...taken(trip), ...generated.slice(0, 100)];
  // One guest may bring so much in a minute; what several bring is no less hostile.
  const refused = new Map<string, string>();
  for (const [name, from, to] of [
    ["Gus", 0, 310],
    ["Kim", 310, undefined],
  ] as const) {
    const guest = await aboard(name, "guest", "--trip", trip);
    for (const [id, code] of await send(guest, hostile.slice(from, to))) refused.set(id, code);
    await guest.context().close();
  }
  // What is the crew's, what ends the trip, and what another guest began.
  expect(new Set(refused.values())).toEqual(new Set(["crew", "ends", "others"]));
  // What is the crew's to write comes from one of the crew.
  const crews = [...hostile.filter(({ id }) => refused.has(id)), ...generated.slice(100)];
  const mate = await aboard("Ben", "mate");
  expect([...(await send(mate, crews))]).toEqual([]);
  await mate.context().close();

  await page.context().setOffline(false);
  await exchangeNow(page);
  const sent = new Set([...hostile, ...crews].map(({ id }) => id));
  await expect.poll(async () => (await heldIn(page)).filter(({ id }) => sent.has(id)).length).toBe(sent.size);

  for (const place of places) await opens(page, place);
  await opens(page, `notes/trip/${trip}`);
  expect(await drawnWhole(page)).toBeGreaterThan(300);
  await opens(page, "gear");
  const gear = (await links(page, "main")).map((path) => path.split("/")[1] ?? "").filter(Boolean);
  const records = [...new Map((await heldIn(page)).map(({ kind, record }) => [kind, record])).values()];
  const marks = (await heldIn(page)).filter(({ kind }) => kind === "mark").map(({ record }) => record);
  const fish = [...new Set(marks)].slice(0, 3);
  // What may stand for an id: one that is there, where the tests know of it, and what no list has.
  const ids: [pattern: RegExp, ids: string[]][] = [
    [/^notes\/(record|told)/, records],
    [/^notes\/(trip|day|keep)/, [trip]],
    [/^notes\/back/, fish],
    [/^notes\/new/, ["note", "photo", "trouble", "touch"]],
    [/^fish\/(land|measure|judge|bleed|slush|release)/, fish],
    [/^fish\/box/, ["long"]],
    [/^crew\/briefing/, ["1"]],
    [/^crew\/(list|change)/, ["leaving"]],
    [/^lines\/plan/, ["1"]],
    [/^gear\/:id/, gear],
  ];
  for (const path of pagesOf(gear)) {
    if (!path.includes(":id")) {
      await opens(page, path);
      continue;
    }
    const known = ids.find(([pattern]) => pattern.test(path))?.[1] ?? [];
    for (const id of [...known, "__proto__", "constructor"]) await opens(page, path.replace(":id", id));
  }
  await reload(page);
  await opens(page, "notes");
  await mark(page);
  // Photos that nobody has are asked for and not found; and out of reach nothing is.
  expect(faults.filter((fault) => !/Failed to load resource.*( 404 |DISCONNECTED)/.test(fault))).toEqual([]);
});

test("what an older app took and cannot be read is kept, told and passed over", async ({ page }) => {
  const trip = uuid();
  const now = Date.now();
  const good = (kind: string, record: string, set: object): Entry =>
    ({ id: uuid(), record, kind, trip, prev: [], set, at: now, n: 1 }) as Entry;
  const entries = [
    good("trip", trip, { name: "Ledge", opened: now }),
    good("note", uuid(), { text: "birds on the ledge" }),
    ...inherited.map((word) => good("list", uuid(), { list: word, name: word, items: [word] })),
  ];
  const odd = unkept(trip).filter(({ set }) => !JSON.stringify(set).includes("[[["));
  // The storage as version 3 of it had it, before the app has been here.
  await page.goto("/palette.js");
  await page.evaluate(
    ({ text, trip }) =>
      new Promise((done, fail) => {
        const opening = indexedDB.open("wirewake-log", 3);
        opening.onerror = fail;
        opening.onupgradeneeded = () => {
          const db = opening.result;
          const all = db.createObjectStore("entries", { keyPath: "id" });
          for (const name of ["trip", "no", "out", "kind"]) all.createIndex(name, name);
          all.createIndex("outOfTrip", ["trip", "out"]);
          all.createIndex("refused", "refused.code");
          db.createObjectStore("trips", { keyPath: "trip" }).put({
            ...{ trip, name: "?", ground: "", opened: 1e300 },
            ...{ closed: null, struck: false, last: 9, hookups: 7 },
          });
          for (const name of ["photos", "thumbs"]) db.createObjectStore(name, { keyPath: "sha256" });
          db.createObjectStore("shipments", { keyPath: "sha256" }).createIndex("out", "out");
          db.createObjectStore("meta").put(trip, "current");
          (JSON.parse(text) as object[]).forEach((entry, i) => {
            all.put({ ...entry, no: i + 1, by: crypto.randomUUID(), byName: "Gus" });
          });
        };
        opening.onsuccess = () => {
          opening.result.close();
          done(undefined);
        };
      }),
    // As text: what is odd of it would not get there otherwise.
    { text: JSON.stringify([...entries, ...odd]), trip },
  );
  const faults = watch(page);
  await page.goto("/#/gear");
  for (const place of places) await opens(page, place);
  await page.goto("/#/notes");
  await expect(row(page, "birds on the ledge")).toBeVisible();
  await expect(page.locator(".unreadable")).toHaveCount(odd.length);
  for (const path of ["notes/past", `notes/trip/${trip}`, "notes/unsent", "crew/list/__proto__", "locker"])
    await opens(page, path);
  await opens(page, "notes");
  await calm(page);
  await mark(page);
  expect((await heldIn(page)).length).toBeGreaterThan(entries.length + odd.length);
  expect(faults).toEqual([]);
});
