import { answered, expect, type Page, rod, test, type, watch } from "./app";
import { Boat, degree, kn, overGround, steadily, turning, type Way } from "./boat";
import { calm, row, startTrip } from "./notes";
import { pass, reload, standing } from "./phone";

const water = 3.25 * kn;
const flow = { drift: 0.7 * kn, set: 200 * degree };
const straight: Way = { water, heading: 40 * degree, ...flow };

const ground = (page: Page) => page.locator(".pace-two", { hasText: "Over the ground" });
const through = (page: Page) => page.locator(".pace-two", { hasText: "Through the water" });

/** First number of a readout. */
async function read(which: ReturnType<typeof ground>): Promise<number> {
  await expect(which.locator(".readout")).toHaveText(/\d/);
  return Number.parseFloat(await which.locator(".readout").innerText());
}

/** A circle at steady throttle, faster than any boat turns; and the current of it taken. */
async function findByTurn(page: Page, boat: Boat): Promise<void> {
  await page.goto("/#/pace/find");
  await calm(page);
  await page.getByRole("button", { name: "By a turn" }).click();
  await boat.run(turning(straight, 300 * degree, 38), 120);
  await expect(page.getByText("Good.")).toBeVisible();
  await calm(page);
  await page.getByRole("button", { name: "Use this current" }).click();
}

async function tapBeat(page: Page, times: number, every: number): Promise<void> {
  const pad = page.locator(".pad");
  const box = await pad.boundingBox();
  if (!box) throw new Error("no pad");
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await standing(page, async () => {
    for (let i = 0; i < times; i++) {
      await page.mouse.down();
      await page.mouse.up();
      await pass(page, every);
    }
  });
}

test("with a receiver Pace tells speed and course with their doubt, aloud if asked to, and no current by poor fixes", async ({
  page,
}) => {
  const faults = watch(page);
  await page.addInitScript(() => {
    const said: [string, string][] = [];
    const voice = (name: string, localService: boolean) => ({ name, localService, lang: "en-GB" });
    Object.assign(window, {
      said,
      SpeechSynthesisUtterance: class {
        voice?: { name: string };
        constructor(readonly text: string) {}
      },
    });
    Object.defineProperty(window, "speechSynthesis", {
      value: {
        getVoices: () => [voice("far away", false), voice("on the phone", true)],
        addEventListener: () => undefined,
        speak: (what: { text: string; voice: { name: string } }) => said.push([what.voice.name, what.text]),
      },
    });
  });
  await page.goto("/#/lines");
  await answered(page);
  const boat = await test.step("the permission given later is used at once", async () => {
    await page.goto("/#/pace");
    await expect(page.getByText("This phone does not give its position to this app.")).toBeVisible();
    const boat = await Boat.aboard(page);
    await pass(page, 500);
    await boat.run(steadily(straight, 5), 120);
    await expect(ground(page)).toBeVisible();
    return boat;
  });
  await test.step("speed and course over the ground, with how old and how good", async () => {
    await boat.run(steadily(straight, 13), 120);
    const { speed, course } = overGround(straight);
    expect(Math.abs((await read(ground(page))) * kn - speed)).toBeLessThan(0.1 * kn);
    const shown = Number(/(\d{3})°/.exec(await ground(page).innerText())?.[1]);
    expect(Math.abs(shown - course / degree)).toBeLessThan(2);
    await expect(ground(page)).toContainText(/mean of 10\ss, fix \d\ss old, good to 16\sft/);
    await expect(through(page)).toContainText(/predicted, good to/);
  });
  await test.step("it speaks only when told to, and only with a voice that is on the phone", async () => {
    const said = () => page.evaluate(() => (window as unknown as { said: [string, string][] }).said);
    expect(await said()).toEqual([]);
    await page.goto("/#/pace/how");
    await page
      .getByText("Say speed and beat aloud")
      .locator("..")
      .getByRole("radio", { name: "Yes" })
      .check();
    await boat.run(steadily(straight, 5), 120);
    await expect.poll(said).toHaveLength(1);
    const [[voice, words] = []] = await said();
    expect(voice).toBe("on the phone");
    expect(words).toMatch(/(Hold it|Perhaps faster)\. \d\.\d knots/);
    await page.goto("/#/pace");
  });
  await test.step("without a fix for ten seconds no number stays on screen, and a frozen receiver is no fix", async () => {
    await boat.run(steadily(straight, 5), 120);
    await expect(ground(page)).toBeVisible();
    for (let i = 0; i < 12; i++) {
      await boat.again();
      await pass(page, 1000);
    }
    await expect(ground(page)).toHaveCount(0);
    await expect(page.getByText(/No fix for \d+\ss\. It was 2\.\d\skn/)).toBeVisible();
    await boat.run(steadily(straight, 3));
    await expect(ground(page)).toBeVisible();
  });
  await test.step("readouts change at most twice a second", async () => {
    // Time goes by with the fixes alone: a receiver that is silent meanwhile would be another readout.
    await standing(page, async () => {
      // Longer than a readout is kept as it is: then they are those of a boat under way.
      await boat.run(steadily(straight, 10), 120);
      await page.evaluate(() => {
        const times: number[] = [];
        (window as unknown as { times: number[] }).times = times;
        const list = document.querySelector(".pace-two .readout") as Element;
        new MutationObserver(() => times.push(performance.now())).observe(list, {
          subtree: true,
          characterData: true,
          childList: true,
        });
      });
      const faster = Array.from({ length: 30 }, (_, i) => ({ ...straight, water: water + i * 0.06 }));
      await boat.run(faster, 100);
    });
    const times = await page.evaluate(() => (window as unknown as { times: number[] }).times);
    expect(times.length).toBeGreaterThan(2);
    // Of one change the pieces come together.
    const changes = times.filter((time, i) => i === 0 || time - (times[i - 1] as number) > 20);
    const gaps = changes.slice(1).map((time, i) => time - (changes[i] as number));
    expect(Math.min(...gaps)).toBeGreaterThan(400);
  });
  await test.step("a turn cut short is refused, then rough; poor fixes do not count", async () => {
    await page.goto("/#/pace/find");
    await calm(page);
    await page.getByRole("button", { name: "By a turn" }).click();
    await boat.run(turning(straight, 60 * degree, 13), 120);
    await expect(page.getByText("Turn on: at least 90°")).toBeVisible();
    await expect(page.getByRole("button", { name: "Use this current" })).toHaveCount(0);
    await boat.run(steadily({ ...straight, water: 6 * kn, accuracy: 300 }, 5));
    await boat.run(turning({ ...straight, heading: 100 * degree }, 70 * degree, 13), 120);
    await expect(page.getByText("Rough.")).toBeVisible();
    await expect(page.getByText(/\d+ fixes do not count/)).toBeVisible();
    const words = await page.locator(".find-told .large-words").innerText();
    const [, drift, set] = /Current (\d\.\d).*towards (\d+)°/s.exec(words) ?? [];
    expect(Math.abs(Number(drift) - 0.7)).toBeLessThanOrEqual(0.3);
    expect(Math.abs(Number(set) - 200)).toBeLessThanOrEqual(30);
  });
  expect(faults).toEqual([]);
});

test("with no position given the screen is kept on, the beat is tapped, and speeds are typed", async ({
  page,
}) => {
  const faults = watch(page);
  await page.addInitScript(() => {
    const held = { count: 0 };
    Object.assign(window, { held });
    Object.defineProperty(navigator, "wakeLock", {
      value: {
        async request() {
          held.count++;
          const lock = new EventTarget() as EventTarget & { release(): Promise<void> };
          lock.release = async () => {
            held.count--;
            lock.dispatchEvent(new Event("release"));
          };
          return lock;
        },
      },
    });
  });
  await page.goto("/#/lines");
  await answered(page);
  await test.step("the screen stays on while a trip runs, unless told not to", async () => {
    const held = () => page.evaluate(() => (window as unknown as { held: { count: number } }).held.count);
    expect(await held()).toBe(0);
    await startTrip(page);
    await expect.poll(held).toBe(1);
    await page.goto("/#/pace/how");
    await expect(page.getByText("four to eight hours (from memory)")).toBeVisible();
    await expect(page.getByText("The screen is kept on now.")).toBeVisible();
    await page.getByText("Keep the screen on").locator("..").getByRole("radio", { name: "No" }).check();
    await expect.poll(held).toBe(0);
    await expect(page.getByText("The screen is not kept on now.")).toBeVisible();
  });
  await test.step("the beat is tapped, told, and noted with one tap", async () => {
    await page.goto("/#/pace/beat");
    await calm(page);
    const pad = await page.locator(".pad").boundingBox();
    expect(pad?.height).toBeGreaterThanOrEqual(740 * 0.4); // what is judged of the beat stands above it
    expect((pad?.y ?? 0) + (pad?.height ?? 0)).toBeGreaterThan(720);
    await tapBeat(page, 3, 500);
    await expect(page.getByText("Go on tapping with the beat.")).toBeVisible();
    await tapBeat(page, 12, 500);
    const reading = page.locator(".beat-reading .readout");
    await expect(reading).toHaveText(/\d+/);
    await pass(page, 700);
    const beat = Number.parseInt(await reading.innerText(), 10);
    expect(Math.abs(beat - 120)).toBeLessThanOrEqual(5);
    await expect(
      page.getByText(/Not enough marks yet\. Still to mark: 3 too slow, 3 right, 3 too fast/),
    ).toBeVisible();
    await expect(
      page.getByText(/To start with: 3\skn to 3\.5\skn \(common practice, no source\)/),
    ).toBeVisible();

    await page.getByRole("button", { name: /^Right/ }).click();
    await expect(page.getByText(/Right was 1[12]\d\sa minute/)).toBeVisible();
    await expect(page.getByText(/3 too slow, 2 right, 3 too fast/)).toBeVisible();
    await page.goto("/#/notes");
    await expect(row(page, "Beat of the rod tip")).toContainText(/8\sin spoon, 1[12]\d\sa minute, Right/);

    // In another place the offer stands one tap away, and says what it would undo.
    await calm(page);
    await page.getByRole("button", { name: "Undo: Marked and noted: right." }).click();
    await calm(page);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(row(page, "Struck out")).toBeVisible();
    await page.goto("/#/pace/beat");
    await expect(page.getByText(/3 too slow, 3 right, 3 too fast/)).toBeVisible();
  });
  await test.step("refused the position, it works with what is typed, by two legs too", async () => {
    await page.goto("/#/pace");
    await expect(page.getByText("This phone does not give its position to this app.")).toBeVisible();
    const leg = async (heading: number) => {
      const { speed, course } = overGround({ ...straight, heading });
      await page.goto("/#/pace/type");
      await calm(page);
      await type(page.getByRole("group", { name: "Speed over ground" }), (speed / kn).toFixed(2));
      const degrees = Math.round((course / degree + 360) % 360);
      await type(page.getByRole("group", { name: "Course over ground" }), String(degrees));
      await expect(page.getByText(/typed 0\ss ago/)).toBeVisible();
      await page.goto("/#/pace/find");
      await calm(page);
      if (heading === straight.heading) await page.getByRole("button", { name: "By straight legs" }).click();
      await calm(page);
      await page.getByRole("button", { name: "Take this leg" }).click();
    };
    await leg(straight.heading);
    await leg(straight.heading + Math.PI);
    const words = page.locator(".find-told .large-words");
    await expect(words).toContainText(/Current 0\.[678].*kn towards (19|20)\d°/s);
    await calm(page);
    await page.getByRole("button", { name: "Use this current" }).click();
    await expect(through(page)).toContainText(/Current 0\.[678]/);
    expect(Math.abs((await read(through(page))) - 3.25)).toBeLessThan(0.3);
    await expect(ground(page)).toContainText(/typed \d+\ss ago/);

    // What to steer with it: by hand 20° more than the track, to a current from ahead on the port side.
    await page.goto("/#/pace/steer");
    await calm(page);
    await type(page.getByRole("group", { name: "Track over the ground" }), "110");
    // Across the track: 0.7 kn · sin 90° = 0.7; asin(0.7 / 3.25) = 12.4°.
    await expect(page.getByText(/Steer 09[78]°/)).toBeVisible();

    await page.goto("/#/pace/type");
    await calm(page);
    const speed = page.getByRole("group", { name: "Speed over ground" });
    await type(speed, "99");
    await expect(speed.getByRole("alert")).toContainText(/Must be from 0 to .* kn/);
  });
  expect(faults).toEqual([]);
});

test("with the network cut a turn finds the current, Pace and Lines go by it, with its age, and the beat is told @keeps", async ({
  lines: page,
  context,
}) => {
  const boat = await Boat.aboard(page);
  await expect.poll(() => page.evaluate(() => Boolean(navigator.serviceWorker.controller))).toBe(true);
  await context.setOffline(true);
  await reload(page);
  await answered(page);
  await findByTurn(page, boat);
  await expect(page).toHaveURL(/#\/pace$/);
  // Until the fixes of the turn are out of the mean.
  await page.goto("/#/pace/how");
  await page.getByRole("radio", { name: "5 s" }).check();
  await page.goto("/#/pace");
  const slow = { ...straight, water: 2.4 * kn };
  await boat.run(steadily(slow, 50), 200);
  expect(Math.abs((await read(through(page))) - 2.4)).toBeLessThan(0.15);
  await expect(through(page)).toContainText(/Current 0\.[67]\skn towards (19\d|20\d)°/);
  await expect(through(page)).toContainText(/found \d+\s?(s|min) ago/);
  await expect(page.locator(".pace-verdict")).toHaveText(/Faster/);
  await expect(page.locator(".pace-order")).toContainText(/kn more over the ground/);

  await page.goto("/#/lines");
  // Time stands still while taps take the machine's: no fix comes meanwhile, and none shall be too old.
  await standing(page, async () => {
    await boat.run(steadily(slow, 45), 200);
    // In one line, until it is tapped.
    await page.getByRole("button", { name: /The boat goes 2\.[345]\skn, Lines has 3\.[23]\skn/ }).click();
    await pass(page, 600);
    await expect(page.getByText(/The boat goes 2\.[345]\skn now; Lines is set to 3\.[23]\skn/)).toBeVisible();
    await expect(page.getByText(/At that speed rods? [\d, ]+: (too deep|on the bottom)/)).toBeVisible();
    await page.getByRole("button", { name: "Follow Pace" }).click();
    // No trip runs, and Pace is not on the screen: what comes from here on is the receiver's for Lines alone.
    await boat.run(steadily({ ...slow, water: 1.8 * kn }, 50), 200);
    await expect(page.locator(".dial", { hasText: "Speed" })).toHaveText(/1\.[789]\skn/);
    await expect(rod(page, 1)).toContainText(/Too deep|On the bottom/);
  });

  // Set by hand, it is followed no longer.
  await page.locator(".dial", { hasText: "Speed" }).click();
  const stepper = page.getByRole("group", { name: "Speed" });
  await expect(stepper).toContainText("from Pace");
  await type(stepper, "3.1");
  await expect(stepper).toContainText("all rods");
  await boat.run(steadily(slow, 20), 200);
  await expect(stepper.locator(".readout")).toContainText("3.1");
  await page.goto("/#/pace/beat");
  await calm(page);
  await tapBeat(page, 8, 400);
  await expect(page.locator(".beat-reading .readout")).toHaveText(/1[45]\d/);
});

test("the band of a spoon is learned from marks, and Pace goes by it", async ({ lines: page }) => {
  const boat = await Boat.aboard(page);
  await findByTurn(page, boat);
  await page.goto("/#/pace/how");
  await page.getByRole("radio", { name: "5 s" }).check();
  const speeds = { "Too slow": [2.0, 2.3], Right: [2.6, 2.9], "Too fast": [3.2, 3.5] };
  await page.goto("/#/pace/beat");
  for (const [feel, [first = 0, second = 0]] of Object.entries(speeds)) {
    for (const [speed, times] of [
      [first, 1],
      [second, 2],
    ] as const) {
      await boat.run(steadily({ ...straight, water: speed * kn }, 28), 200);
      for (let i = 0; i < times; i++) {
        await page.getByRole("button", { name: new RegExp(`^${feel}`) }).click();
        await expect(page.getByText(`Marked and noted: ${feel.toLowerCase()}`)).toBeVisible();
        await calm(page);
      }
    }
    if (feel === "Too slow") {
      await expect(page.getByText(/^So far [23]\.\d.*and your first 3 marks/)).toBeVisible();
      await expect(page.getByText("To go by your marks alone: 3 right, 3 too fast more.")).toBeVisible();
    }
  }
  await page.goto("/#/pace");
  await expect(page.locator(".pace-wanted")).toContainText("as your marks of this spoon say");
  const [, low, high] =
    /Wanted: (\d\.\d+).*to (\d\.\d+)/.exec(await page.locator(".pace-wanted").innerText()) ?? [];
  expect(Number(low)).toBeGreaterThan(2.2);
  expect(Number(low)).toBeLessThan(2.7);
  expect(Number(high)).toBeGreaterThan(2.9);
  expect(Number(high)).toBeLessThan(3.4);

  await page.goto("/#/pace/wanted");
  await calm(page);
  const slower = page.getByRole("group", { name: "Not slower than" });
  await type(slower, "5");
  await expect(page.getByText("The slower of the two must not be above the faster.")).toBeVisible();
  await type(slower, "2.5");
  await expect(page.getByText("as set here")).toBeVisible();
});
