/** The season read, drawn and taken out, with no signal: what is there is found, and nothing that is not. */
import { readFileSync, writeFileSync } from "node:fs";
import { answered, expect, type Page, test, watch } from "./app";
import { demo, demoFile, type Truth } from "./demo-season";
import { calm, givePhoto, mark } from "./notes";
import { cut, phone, small } from "./phone";
import { tablesKept } from "./terminal";

async function read(page: Page, truth: Truth): Promise<void> {
  await page.goto("/#/notes/past");
  await calm(page);
  await page.locator('input[type="file"]').setInputFiles(demoFile(truth));
  await expect(page.getByText(/\d notes came in/)).toBeVisible();
  await cut(page);
  await calm(page);
  await page.getByRole("link", { name: "What brought fish" }).click();
  await expect(page.getByRole("heading", { name: "What brought fish" })).toBeVisible();
  await expect(page.getByText(/\d strikes, \d+ at different times/)).toBeVisible();
}

test("a season grows", async ({ page }) => {
  await test.step("of a short season there are counts, and how many more are wanted", async () => {
    await read(page, { ...demo, trips: 3 });
    await expect(page.getByText(/Too early to say: \d+ more are wanted/)).toBeVisible();
    await expect(page.getByText(/Likely better so far/)).toHaveCount(0);
  });

  await test.step("the spoon and the light that brought more are named, and nothing else", async () => {
    const faults = watch(page);
    await read(page, demo);
    await expect(page.getByText(/Likely better so far: Spoon: Demo spoon A/)).toBeVisible();
    await expect(page.getByText(/Likely better so far: Light: Dawn/)).toBeVisible();
    await expect(page.getByText(/Likely better so far/)).toHaveCount(2);
    await expect(page.getByRole("img", { name: /^Demo spoon A: / })).toBeVisible();
    // What was out mostly at dawn gets none of dawn's credit.
    await page.getByRole("combobox", { name: "By", exact: true }).selectOption({ label: "Colour" });
    await expect(page.getByRole("img", { name: /^Demo dawn colour: / })).toBeVisible();
    await expect(page.getByText(/Likely better so far/)).toHaveCount(2);
    await page.getByRole("combobox", { name: "By", exact: true }).selectOption({ label: "Spoon" });
    await page.getByRole("combobox", { name: "Together with" }).selectOption({ label: "Line out" });
    await expect(page.getByText(/Demo spoon A · /).first()).toBeVisible();
    await expect(page.getByText(/Likely better so far/)).toHaveCount(2);
    expect(faults).toEqual([]);
  });
});

test("of a season in which nothing mattered nothing is named", async ({ page }) => {
  await read(page, { ...demo, spoon: 1, dawn: 1, rate: 0.9 });
  await expect(page.getByText(/Nothing stands out so far/)).toBeVisible();
  await expect(page.getByText(/Likely better so far/)).toHaveCount(0);
});

/** What the page hands over when a button is tapped. */
async function handedOver(page: Page, button: string): Promise<{ name: string; content: Buffer }> {
  await calm(page);
  const coming = page.waitForEvent("download");
  await page.getByRole("button", { name: button, exact: true }).click();
  const file = await coming;
  return { name: file.suggestedFilename(), content: readFileSync(await file.path()) };
}

async function openTrip(page: Page, name: RegExp): Promise<void> {
  await page.goto("/#/notes/past");
  await calm(page);
  await page.getByRole("link", { name }).click();
  await expect(page.getByRole("heading", { name: "A trip" })).toBeVisible();
  await calm(page);
}

test("a trip is drawn and taken out @keeps", async ({ page }) => {
  await test.step("a day is drawn, and leads back to a strike with the spread as it was", async () => {
    const faults = watch(page);
    await page.context().grantPermissions(["geolocation"]);
    await page.context().setGeolocation({ latitude: 40.44, longitude: -73.85, accuracy: 5 });
    await page.goto("/#/notes");
    await tablesKept(page);
    // Where the tables know a current.
    await read(page, { ...demo, trips: 2, lon: -73.99 });
    await openTrip(page, /Demo trip 1/);
    await page.getByRole("link", { name: "The day drawn" }).click();
    await expect(page.getByRole("img", { name: /Where the boat went, north up: \d+ strikes/ })).toBeVisible();
    await expect(page.getByText("Current, as predicted")).toBeVisible();
    expect(await page.locator(".day-chart .day-flow").count()).toBeGreaterThan(3);
    await expect(page.getByRole("img", { name: /Depth of the lures over the bottom/ })).toBeVisible();
    await expect(
      page.getByText(/^Reckoned then: \d+–\d+.ft, \d+–\d+.ft off the bottom$/).first(),
    ).toBeVisible();
    await calm(page);
    await page.getByRole("link", { name: "Put me back there" }).first().click();
    await expect(page.getByText(/(nm|ft) on \d{3}°/)).toBeVisible();
    await expect(page.getByText("This phone knows none of that gear: set the spread by hand.")).toBeVisible();
    expect(faults).toEqual([]);
  });

  await test.step("a trip leaves in every format, and a track comes in", async () => {
    await openTrip(page, /Demo trip 1/);
    const gpx = await handedOver(page, "GPX: places and track");
    expect(gpx.name).toBe("demo-trip-1.gpx");
    expect(String(gpx.content)).toContain("<trkseg>");
    const csv = String((await handedOver(page, "CSV table")).content);
    expect(csv.split("\r\n")[0]).toContain("time (UTC),kind,latitude (°),longitude (°)");
    const geojson = JSON.parse(String((await handedOver(page, "GeoJSON: for maps")).content));
    expect(geojson.type).toBe("FeatureCollection");
    const ics = String((await handedOver(page, "Calendar")).content);
    expect(ics).toContain("SUMMARY:Demo trip 1\r\n");
    const load = async (inside: string, said: string | RegExp) => {
      await page.locator('input[type="file"]').setInputFiles({
        name: "other.gpx",
        mimeType: "application/gpx+xml",
        buffer: Buffer.from(inside),
      });
      await expect(page.getByText(said)).toBeVisible();
      await calm(page);
    };
    const points = (day: string, seconds: number[]) =>
      seconds
        .map(
          (s) =>
            `<trkpt lat="40.4" lon="-73.8"><time>${day}T10:00:${String(s).padStart(2, "0")}</time></trkpt>`,
        )
        .join("");
    const whole = (day: string, seconds: number[]) =>
      `<gpx xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${points(day, seconds)}</trkseg></trk></gpx>`;
    await load(whole("2026-06-01", [0, 5, 10, 20]), "3 points of the track are in this trip now.");
    await load(whole("2026-06-01", [0, 5, 10, 20]), "All of this track was in this trip already.");
    await load(whole("2025-06-01", [0]), /This track is of another time: .*2025/);
    // What stands before the break is there, as this browser reads it.
    const cutOff = `<gpx><trk><trkseg>${points("2026-06-01", [30, 40])}<trkpt lat="40.4" lo`;
    await load(cutOff, "2 points of the track are in this trip now. The file breaks off");
    await load("<html>", "This file cannot be read.");
    await load("<html/>", "There is no track with times in this file.");
  });
});

test("a day of one’s own, looked back upon", async ({ page }) => {
  await test.step("the spread of a mark is set again by one tap, and that can be undone", async () => {
    await page.goto("/#/lines");
    await answered(page);
    const line = page.getByRole("group", { name: "Line out" }).getByRole("button", { name: /\d/ }).first();
    await page.goto("/#/notes");
    await mark(page);
    await page.getByRole("button", { name: "Done" }).click();
    await page.goto("/#/lines");
    await calm(page);
    const before = await line.textContent();
    await page.getByRole("button", { name: "Line out: more" }).click();
    await expect(line).not.toHaveText(before ?? "");
    await page.goto("/#/notes");
    await calm(page);
    await page.getByRole("link", { name: /Trip of/ }).click();
    await page.getByRole("link", { name: "The day drawn" }).click();
    await calm(page);
    await page.getByRole("link", { name: "Put me back there" }).click();
    await calm(page);
    await page.getByRole("button", { name: "Set the spread like this" }).click();
    await page.goto("/#/lines");
    await expect(line).toHaveText(before ?? "");
  });

  await test.step("of a fish that got off it is asked why, of no other, and the trip counts it", async () => {
    await page.goto("/#/notes");
    await mark(page);
    await expect(page.getByRole("group", { name: "Why it got off" })).toHaveCount(0);
    await page
      .getByRole("group", { name: "Fish", exact: true })
      .getByRole("radio", { name: "Got off" })
      .click();
    await page
      .getByRole("group", { name: "Why it got off" })
      .getByRole("radio", { name: "Hook pulled out" })
      .click();
    await calm(page);
    await page.getByRole("button", { name: "Done" }).click();
    await calm(page);
    await page.getByRole("link", { name: /Trip of/ }).click();
    await calm(page);
    await page.getByRole("button", { name: "Close the trip" }).click();
    await calm(page);
    await page.getByRole("button", { name: "Close it for all" }).click();
    await openTrip(page, /Trip of/);
    await expect(page.getByText("1 got off: 1 × Hook pulled out")).toBeVisible();
    await page.goto("/#/notes/season");
    await expect(page.getByText("1 got off: 1 × Hook pulled out")).toBeVisible();
  });
});

test("a page for a guest, papers, and everything in one file", async ({ page, browser, server }) => {
  await test.step("a guest's page has the guest's own fish, and of others only who said yes", async () => {
    await page.goto("/#/lines");
    await calm(page);
    const ours = "00000000-0000-4000-8000-00000000000";
    const say = (n: number, record: string, kind: string, set: object) => ({
      ...{ id: `01990000-0000-7000-a000-00000000000${n}`, record, kind, trip: `${ours}1`, prev: [], set },
      ...{ at: Date.UTC(2026, 5, 1, 10, n), n, by: `${ours}9`, byName: "Demo phone" },
    });
    const notes = {
      format: "wirewake-notes",
      version: 1,
      entries: [
        say(1, `${ours}1`, "trip", { name: "Demo <b>day</b>", aboard: 4 }),
        say(2, `${ours}2`, "mark", {
          person: "Ann",
          fish: "striped bass",
          length: 0.8,
          fate: "released",
          lat: 40.4,
          lon: -73.8,
        }),
        say(3, `${ours}3`, "mark", { person: "Gus", fish: "bluefish", fate: "kept", lat: 40.41, lon: -73.8 }),
        say(4, `${ours}4`, "person", { name: "Ida" }),
      ],
    };
    await page.goto("/#/notes/past");
    await calm(page);
    await page.locator('input[type="file"]').setInputFiles({
      name: "a.json",
      mimeType: "application/json",
      buffer: Buffer.from(JSON.stringify(notes)),
    });
    await expect(page.getByText("4 notes came in.")).toBeVisible();
    await openTrip(page, /Demo <b>day/);
    await page.getByRole("link", { name: "A page to take home" }).click();
    await page.getByRole("combobox", { name: "Whose page" }).selectOption("Ann");
    await page.getByRole("textbox", { name: "Named on it as" }).fill("Annie");
    await page.getByRole("checkbox", { name: "Ida said yes" }).check();
    const { name, content } = await handedOver(page, "Save the page");
    expect(name).toMatch(/^annie-.*\.html$/);
    // Where it went is told in sight, though the page ended with the button.
    await expect(page.getByText(/^Handed to this phone to keep: annie-/)).toBeInViewport({ ratio: 1 });
    const text = String(content);
    expect(text).not.toMatch(/Gus|Ann\b|Bluefish|<b>day/);
    const kept = await (await browser.newContext()).newPage();
    await kept.setContent(text);
    await expect(kept.getByRole("heading", { name: "Annie: Demo <b>day</b>" })).toBeVisible();
    await expect(kept.getByText("Aboard: Annie, Ida")).toBeVisible();
    await expect(kept.getByText(/Striped bass, 31.5.in, about \d+ lb to \d+ lb|Striped bass/)).toBeVisible();
    await expect(kept.getByRole("img", { name: /1 strike,/ })).toBeVisible();
    await kept.context().close();

    // Opened there anew, when the trips are still to be read.
    await page.goto("about:blank");
    await page.goto("/#/notes/papers");
    const table = page.locator(".papers-table");
    await expect(table.locator("tr", { hasText: /4Striped bass1Let go.*Ann/ })).toBeVisible();
    await expect(table.locator("tr", { hasText: /4Bluefish1Keptnot toldGus/ })).toBeVisible();
    await expect(table.locator("td").first()).toHaveText(/2026/);
    await expect(page.getByText("Striped bass: 1 Let go")).toBeVisible();
    // On a phone nothing of a row is out of sight (WCAG 2.2, 1.4.10), and each value has its name beside it.
    const last = table.locator("tbody tr").last().locator("td");
    for (const cell of await last.all()) {
      const { x = -1, width = 0 } = (await cell.boundingBox()) ?? {};
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x + width).toBeLessThanOrEqual(360);
    }
    const names = await last.evaluateAll((cells) =>
      cells.map((cell) => getComputedStyle(cell, "::before").content),
    );
    expect(names.join()).toBe(
      '"Day","Waters","Aboard","Species","Count","Kept or let go","Lengths","Person"',
    );
    // On a sheet of A4 or Letter within its margins: all of the table, and nothing that is tapped.
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 700, height: 980 });
    for (const tapped of [".top", ".page-end", "main .button"])
      await expect(page.locator(tapped).first()).toBeHidden();
    // Laid out by flex, what comes after a table of many sheets is printed over the last of them.
    for (const box of [".frame", ".within", ".page"])
      expect(await page.locator(box).evaluate((one) => getComputedStyle(one).display)).toBe("block");
    const { right = Number.POSITIVE_INFINITY } = await page
      .locator(".papers-table")
      .evaluate((table) => table.getBoundingClientRect());
    expect(right).toBeLessThanOrEqual(700);
    await page.emulateMedia({ media: null });
    await page.setViewportSize(small.viewport);
  });

  await test.step("everything goes into one file, and comes out of it on another phone and in the boat's log", async () => {
    await page.goto("/#/notes");
    await mark(page);
    await page.goto("/#/notes/new/photo");
    await calm(page);
    await givePhoto(page, "teal");
    await expect(page.getByText("Saved.")).toBeVisible();
    await page.goto("/#/notes/past");
    const { name, content } = await handedOver(page, "Save everything to a file");
    expect(name).toMatch(/^wirewake-\d{4}-\d\d-\d\d\.zip$/);

    // The boat's log makes of it, byte by byte, what the phone makes of the same notes.
    const file = test.info().outputPath(name);
    writeFileSync(file, content);
    expect(server.terminal("import", file)).toMatch(/^\d notes and 1 photo came in; 0 were there already/);
    // Of the trip that began here: of what this phone has from a file the boat's log tells who brought it.
    const listed = server.terminal("export").split("\n");
    const [id = ""] = listed.find((trip) => !trip.includes("Demo"))?.split(" ") ?? [];
    const table = server.terminal("export", "--format", "csv", "--trip", id);
    expect(table.split("\r\n").length).toBeGreaterThan(3);
    await page.goto(`/#/notes/trip/${id}`);
    expect(table).toBe(String((await handedOver(page, "CSV table")).content));

    const other = await phone(browser);
    await other.goto(new URL("/#/notes/past", page.url()).href);
    await calm(other);
    await other
      .locator('input[type="file"]')
      .setInputFiles({ name, mimeType: "application/zip", buffer: content });
    await expect(other.getByText(/\d notes and 1 photo came in/)).toBeVisible();
    await calm(other);
    await other.getByRole("button", { name: "Take them" }).click();
    await expect(other.getByText("Gear, rules, boat and lists taken")).toBeVisible();
    await calm(other);
    await other
      .locator('input[type="file"]')
      .setInputFiles({ name: name.toUpperCase(), mimeType: "application/zip", buffer: content });
    await expect(other.getByText("All of this file was here already.")).toBeVisible();
    await other
      .locator('input[type="file"]')
      .setInputFiles({ name: "cut.zip", mimeType: "application/zip", buffer: content.subarray(0, 900) });
    await expect(other.getByText(/This file cannot be read/)).toBeVisible();
    await other.context().close();
  });
});
