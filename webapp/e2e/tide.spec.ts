/** The water ahead: loaded at the dock, worked out with the network cut, as the terminal says it too. */
import { expect, type Page, rod, test, type } from "./app";
import { Boat, degree, kn, steadily } from "./boat";
import { calm, startTrip } from "./notes";
import { reload } from "./phone";
import { calc, tablesKept } from "./terminal";

const slow = { water: 3.2 * kn, heading: 40 * degree };

/** The day ahead, where the boat trolls. */
async function dayAhead(page: Page): Promise<Boat> {
  const boat = await Boat.aboard(page);
  await page.goto("/#/pace/water");
  await boat.run(steadily(slow, 3));
  await calm(page);
  return boat;
}

const onChart = (page: Page) => page.getByRole("group", { name: "Depth on the chart here" });

test("at the dock the tables come, and the days to come are worked out from them without network @keeps", async ({
  lines: page,
}) => {
  const boat = await Boat.aboard(page);
  await tablesKept(page);
  await page.context().setOffline(true);

  await test.step("with the network cut the next day is the terminal's, and Pace goes by it", async () => {
    await page.goto("/#/pace");
    await boat.run(steadily(slow, 12));
    // Pace has a current that nobody has found yet, and says where it is from.
    await expect(page.locator(".pace-two", { hasText: "Through the water" })).toContainText("predicted");

    await page.goto("/#/pace/water");
    await expect(page.getByRole("heading", { name: "The water ahead" })).toBeVisible();
    await calm(page);
    await page.getByRole("button", { name: "Day after" }).click();
    await expect(page.getByText(/not for navigation/)).toBeVisible();
    await expect(page.locator(".tide-marks").first()).toContainText("High water");
    const day = page.locator(".tide-day");
    await expect(day).not.toHaveText("Today");
    const from = await page.evaluate(() => {
      const at = new Date();
      at.setHours(0, 0, 0, 0);
      at.setDate(at.getDate() + 1);
      return at.getTime() / 1000;
    });
    const place = { lat: Math.round(41.2 * 60) / 60 / (180 / Math.PI), lon: -71.5 * degree };
    const { stations } = calc<{ stations: { id: string; why: string }[] }>("stations", {
      place,
      kind: "tide",
    });
    const station = stations.find(({ why }) => why === "")?.id ?? "";
    const { marks } = calc<{ marks: { time: number; turn: string }[] }>("tide", {
      station,
      from,
      until: from + 86400,
    });
    const clock = (time: number) =>
      page.evaluate(
        (ms) =>
          new Intl.DateTimeFormat("en", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" }).format(ms),
        time * 1000,
      );
    const shown = await page.locator(".tide-marks").first().innerText();
    expect(marks.length).toBeGreaterThan(2);
    for (const { time, turn } of marks) {
      expect(shown).toContain(`${await clock(time)} ${turn === "high water" ? "High water" : "Low water"}`);
    }
    // The slacks of the current, and the light.
    const streams = calc<{ stations: { id: string; why: string }[] }>("stations", { place, kind: "current" });
    const stream = streams.stations.find(({ why }) => why === "")?.id ?? "";
    const runs = calc<{ marks: { time: number; turn: string }[] }>("stream", {
      station: stream,
      from,
      until: from + 86400,
    });
    const slacks = runs.marks.filter(({ turn }) => turn.startsWith("slack"));
    expect(slacks.length).toBeGreaterThan(2);
    const flows = await page.locator(".tide-marks").nth(1).innerText();
    for (const { time, turn } of slacks)
      expect(flows).toContain(`${await clock(time)} Slack, then ${turn.replace("slack before ", "")}`);
    const light = calc<{ events: { time: number; change: string }[] }>("light", {
      place,
      from,
      until: from + 86400,
    });
    const skies = await page.locator(".tide-marks").nth(2).innerText();
    const sun = light.events.filter(({ change }) => change === "sunrise" || change === "sunset");
    expect(sun).toHaveLength(2);
    for (const { time, change } of sun)
      expect(skies).toContain(`${await clock(time)} ${change === "sunrise" ? "Sunrise" : "Sunset"}`);
    // Stations by bearing and distance, as a picture too.
    await expect(page.getByRole("img", { name: /stations about this place/ })).toBeVisible();
  });

  await test.step("the depth on the chart is typed once, and Lines and the plan take it with the tide by a tap", async () => {
    await page.getByRole("button", { name: "Day before" }).click();
    await expect(page.locator(".tide-day")).toHaveText("Today");
    await type(onChart(page), "40");
    await expect(page.getByText(/deep now, .* of it tide/)).toBeVisible();
    const [said = ""] = /[\d.]+/.exec(await page.getByText(/deep now/).innerText()) ?? [];
    expect(Math.abs(Number(said) - 40)).toBeLessThan(8);
    await reload(page);
    for (const place of ["lines", "lines/plan"]) {
      await page.goto(`/#/${place}`);
      await calm(page);
      await page.getByRole("button", { name: /ft on Lines/ }).click();
      await expect(page.getByText(/Lines has .* of water now/)).toBeVisible();
      await expect(page.getByRole("button", { name: /ft on Lines/ })).toBeHidden();
      await calm(page);
      await page.getByRole("button", { name: "Undo" }).click();
      await expect(page.getByRole("button", { name: /ft on Lines/ })).toBeVisible();
    }
    await page.goto("/#/locker/ready");
    await expect(page.locator(".check.good", { hasText: "Tables of tide and current" })).toBeVisible();
  });
});

test("the water ahead of the boat is told by the stations, the track and the depth on the chart, and what it fished in", async ({
  lines: page,
}) => {
  const boat = await dayAhead(page);

  await test.step("the current of now is of the station chosen, by name, until the slack that ends it", async () => {
    const choice = page.getByRole("radio").and(page.locator("[name=current]")).nth(2);
    await choice.check();
    const place = { lat: Math.round(41.2 * 60) / 60 / (180 / Math.PI), lon: -71.5 * degree };
    const { stations } = calc<{ stations: { id: string; name: string; why: string }[] }>("stations", {
      place,
      kind: "current",
    });
    const station = stations.filter(({ why }) => why === "")[2];
    const section = page.locator("section", {
      has: page.getByRole("heading", { name: "Current", exact: true }),
    });
    await expect(section).toContainText(station?.name ?? "none");
    const from = await page.evaluate(() => Date.now() / 1000);
    const { curve, marks } = calc<{ curve: number[]; marks: { time: number; turn: string }[] }>("stream", {
      station: station?.id,
      place,
      from,
      until: from + 86400,
      step: 86400,
    });
    const flood = (curve[0] ?? 0) > 0;
    const slack = marks.find(({ turn }) => turn.startsWith("slack"))?.time ?? 0;
    // Of now to the minute.
    const ends = await page.evaluate(
      (ms) =>
        new Intl.DateTimeFormat("en", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" }).format(ms),
      slack * 1000,
    );
    await expect(section.locator(".large-words")).toHaveText(
      new RegExp(
        `^${flood ? "Flood" : "Ebb"} .* until ${ends}, then slack, then ${flood ? "ebb" : "flood"}$`,
      ),
    );
  });

  await test.step("with the depth on the chart the day tells the water's depth, and for each rod by number the line out, or that its wire is too short", async () => {
    const table = page.getByRole("table", { name: "The day by the hour" });
    await expect(table.getByRole("columnheader", { name: "Height" })).toBeVisible();
    await type(onChart(page), "40");
    await expect(table.getByRole("columnheader", { name: "Depth of water" })).toBeVisible();
    await expect(table.getByRole("columnheader", { name: "Height" })).toHaveCount(0);
    await expect(table.getByRole("columnheader", { name: "Line out, rod 1" })).toBeVisible();
    const first = table.getByRole("row").nth(1).getByRole("cell");
    // In the steps of the dial of line out.
    await expect(first.nth(3)).toHaveText(/^\d*[05]\sft$/);
    const why = page.getByText(/^> More than the wire on that reel. – No line out brings/);
    await expect(why).toHaveCount(0);
    // With backing behind the wire there is a way down, and then none any more.
    await type(onChart(page), "65");
    await expect(first.nth(3)).toHaveText(/^>\s\d+\sft$/);
    await expect(why).toBeVisible();
    await type(onChart(page), "300");
    await expect(first.nth(3)).toHaveText("–");
    await expect(why).toBeVisible();
  });

  await test.step("the day and the track are as they were left: the day while the app is open, the track longer", async () => {
    const track = page.getByRole("group", { name: "Track wanted" });
    await type(track, "123");
    await calm(page);
    await page.getByRole("button", { name: "Day after" }).click();
    const day = page.locator(".tide-day");
    await expect(day).not.toHaveText("Today");
    const name = await day.innerText();
    await page.goto("/#/lines");
    await expect(rod(page, 1)).toBeVisible();
    await page.goto("/#/pace/water");
    await expect(day).toHaveText(name);
    await expect(track).toContainText("123");
    await reload(page);
    await expect(day).toHaveText("Today");
    await expect(track).toContainText("123");
  });

  await test.step("a hookup carries the hour of the tide, computed from where and when", async () => {
    await page.goto("/#/notes");
    await startTrip(page);
    await boat.run(steadily(slow, 5));
    await page.getByRole("button", { name: "Mark" }).click();
    await calm(page);
    await page.goto("/#/notes");
    await page.locator(".timeline a", { hasText: "Hookup" }).first().click();
    await expect(page.getByText(/Tide then, computed: .* after (high|low) water/)).toBeVisible();
    // And the water ahead counts it.
    await page.goto("/#/pace/water");
    await expect(page.getByRole("heading", { name: "Your own hookups by the tide" })).toBeVisible();
    await expect(page.getByText(/^1 hookup \d to \d h after (high|low) water$/)).toBeVisible();
  });
});
