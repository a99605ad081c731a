import { riseAhead } from "./alarms";
import { answered, dial, expect, follow, go, rod, settled, shownIn, step, test, type, watch } from "./app";
import { faults } from "./layout";
import { calm, row, startTrip } from "./notes";
import { pass, reload, standing } from "./phone";
import { hold, poseNames } from "./poses";

test("on its first day a phone has depths at once, and is read and worked by whoever picks it up", async ({
  page,
}) => {
  const reported = watch(page);
  await test.step("a first-time user has a spread and depths without a single question", async () => {
    await page.goto("/");
    await answered(page);
    expect(await page.locator(".rod").count()).toBeGreaterThanOrEqual(3);
    await expect(page.getByText("Wire under load cuts")).toBeVisible();
    await expect(page.locator(".picture svg")).toBeVisible();
  });

  await test.step("what is touched at sea is large, and stands apart", async () => {
    const boxes = await page.locator(".step, .dial, .place-deck .stepper-value").evaluateAll((all) =>
      all.map((one) => {
        const { left, top, right, bottom } = one.getBoundingClientRect();
        return { left, top, right, bottom };
      }),
    );
    for (const box of boxes) expect(box.bottom - box.top).toBeGreaterThanOrEqual(64);
    const dials = boxes.slice(-4);
    for (const [i, box] of dials.slice(1).entries()) {
      expect(box.left - (dials[i]?.right ?? 0)).toBeGreaterThanOrEqual(12);
    }
    const others = await page
      .locator("a:visible, button:visible")
      .evaluateAll((all) =>
        all.map((one) => ({ name: one.textContent, height: one.getBoundingClientRect().height })),
      );
    for (const { name, height } of others) expect(height, name ?? "").toBeGreaterThanOrEqual(56);
    const sizes = await page
      .locator("body *:visible")
      .evaluateAll((all) =>
        all
          .filter((one) => [...one.childNodes].some((n) => n.nodeType === 3 && n.textContent?.trim()))
          .map((one) => Number.parseFloat(getComputedStyle(one).fontSize)),
      );
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(18);
    const readouts = await page
      .locator(".readout")
      .evaluateAll((all) => all.map((one) => Number.parseFloat(getComputedStyle(one).fontSize)));
    expect(Math.min(...readouts)).toBeGreaterThanOrEqual(30);
  });

  await test.step("a row says what its numbers mean by a tap on it", async () => {
    await settled(page);
    await expect(page.locator(".rod-explained")).toHaveCount(0);
    await rod(page, 1).locator(".rod-face").click();
    await expect(rod(page, 1).locator(".rod-explained")).toContainText(
      /Nine times in ten it runs between \d+\sft and \d+\sft.*Where wanted \d+\sin\s10/,
    );
    await rod(page, 2).locator(".rod-face").click();
    await expect(page.locator(".rod-explained")).toHaveCount(0);
  });

  await test.step("the picture tells in words what it shows, and a tap on it takes the nearest line in hand", async () => {
    // As long as the caution is told, it lies over the picture.
    await calm(page);
    await page.getByRole("button", { name: "Noted" }).click();
    await settled(page);
    const picture = page.getByRole("img", { name: "The spread from the side" });
    await expect(picture).toHaveAttribute("aria-label", /in 50\sft of water\. port rigger: \d+\s±\s\d+\sft/i);
    await expect(page.locator(".rod.selected .rod-number")).toHaveText(/^2/);
    // Numbers are drawn over all lines, in the order of the lines.
    const numbers = page.locator("svg .tag");
    const third = (await numbers.allTextContents()).indexOf("3");
    const lure = (await page.locator(".towed .spoon").nth(third).boundingBox()) ?? { x: 0, y: 0 };
    await page.mouse.click(lure.x + 5, lure.y + 5);
    await expect(page.locator(".rod.selected .rod-number")).toHaveText(/^3/);
    await numbers.filter({ hasText: "2" }).click();
    await expect(page.locator(".rod.selected .rod-number")).toHaveText(/^2/);
  });

  await test.step("holding a button goes on stepping; letting go stops", async () => {
    const lineOut = await dial(page, "Line out");
    await type(lineOut, "100");
    await lineOut.getByRole("button", { name: "more" }).hover();
    await standing(page, async () => {
      await page.mouse.down();
      await pass(page, 1200);
      await page.mouse.up();
    });
    const reached = Number.parseFloat(await shownIn(lineOut));
    expect(reached).toBeGreaterThanOrEqual(120);
    await pass(page, 400);
    expect(Number.parseFloat(await shownIn(lineOut))).toBe(reached);
    await reload(page);
    await answered(page);
    expect(Number.parseFloat(await shownIn(await dial(page, "Line out")))).toBe(reached);
  });

  await test.step("what was noted is not told again", async () => {
    await expect(page.getByText("Wire under load cuts")).toHaveCount(0);
  });

  await test.step("everything is done by keyboard alone", async () => {
    const focused = () =>
      page.evaluate(() => {
        const { activeElement } = document;
        return activeElement?.getAttribute("aria-label") ?? activeElement?.textContent ?? "";
      });
    const tabTo = async (what: RegExp) => {
      for (let i = 0; i < 60; i++) {
        await page.keyboard.press("Tab");
        if (what.test(await focused())) return;
      }
      throw new Error(`no way to ${what} by Tab`);
    };
    await tabTo(/^Line out: more/);
    const before = Number.parseFloat(await shownIn(page.getByRole("group", { name: "Line out" })));
    await page.keyboard.press("Enter");
    await pass(page, 200);
    await page.keyboard.press("Space");
    await expect
      .poll(async () => Number.parseFloat(await shownIn(page.getByRole("group", { name: "Line out" }))))
      .toBe(before + 10);
    await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Enter");
    await page.keyboard.type("180");
    await page.keyboard.press("Enter");
    await expect(page.getByRole("group", { name: "Line out" })).toContainText("180");
    await tabTo(/^Locker$/);
    await page.keyboard.press("Enter");
    await expect(page.getByRole("heading", { name: "Locker" })).toBeFocused();
  });

  await test.step("after a start the last depths are there before the calculator is, as of then", async () => {
    await page.goto("/#/lines");
    await settled(page);
    const readout = rod(page, 1).locator(".readout");
    const before = await readout.innerText();
    await expect(rod(page, 1)).not.toContainText("as of");
    await pass(page, 4000);
    await page.addInitScript(() => {
      const silent = class {
        postMessage() {}
        terminate() {}
      };
      Object.defineProperty(window, "Worker", { value: silent });
    });
    await reload(page);
    await expect(rod(page, 1).getByText("as of")).toBeVisible();
    expect(await readout.innerText()).toBe(before);
  });
  expect(reported).toEqual([]);
});

test("a number is dialled or typed as wet fingers do, for one rod or all, and none is taken by mistake", async ({
  lines: page,
}) => {
  const before = await shownIn(await dial(page, "Line out"));

  await test.step("a wrong number is told at its field, and the old value stays", async () => {
    const lineOut = await dial(page, "Line out");
    await type(lineOut, "abc");
    await expect(lineOut.getByRole("alert")).toContainText("not a number");
    expect(await shownIn(lineOut)).toBe(before);

    await type(lineOut, "99999");
    await expect(lineOut.getByRole("alert")).toContainText(/Must be from .* to .* ft/);
    expect(await shownIn(lineOut)).toBe(before);

    // More than is on the reel.
    await type(lineOut, "5000");
    await expect(lineOut.getByRole("alert")).toContainText("750 ft");
    expect(await shownIn(lineOut)).toBe(before);

    const speed = await dial(page, "Speed");
    await type(speed, "-3");
    await expect(speed.getByRole("alert")).toContainText(/Must be from 0 to .* kn/);
    await type(speed, "3,1");
    await expect(speed.getByRole("alert")).toBeEmpty();
    expect(await shownIn(speed)).toContain("3.1");
  });

  await test.step("a depth of water that the wanted band does not fit into names the band", async () => {
    const bottom = await dial(page, "Bottom");
    await type(bottom, "2");
    await expect(bottom.getByRole("alert")).toContainText("wanted off bottom");
    expect(await shownIn(bottom)).toContain("50");
  });

  await test.step("Escape leaves a number as it was", async () => {
    const lineOut = await dial(page, "Line out");
    await lineOut.locator("button.stepper-value").click();
    await lineOut.locator("input").fill("120");
    await lineOut.locator("input").press("Escape");
    expect(await shownIn(lineOut)).toBe(before);
  });

  await test.step("a number typed and not confirmed is taken when the page goes, and none that was refused", async () => {
    const bottom = await dial(page, "Bottom");
    await bottom.locator("button.stepper-value").click();
    await bottom.locator("input").fill("45");
    await reload(page);
    await expect(page.locator(".dial", { hasText: "Bottom" })).toContainText("45");
    await answered(page);
    expect(await shownIn(await dial(page, "Line out"))).toBe(before);
    await expect(page.locator(".dial", { hasText: "Speed" })).toContainText("3.1");
  });

  await test.step("readouts change at most twice a second, however fast one steps", async () => {
    const lineOut = await dial(page, "Line out");
    await page.evaluate(() => {
      const seen: number[] = [];
      (window as unknown as { seen: number[] }).seen = seen;
      const readout = document.querySelector(".rod .readout") as Element;
      new MutationObserver(() => seen.push(performance.now())).observe(readout, {
        characterData: true,
        childList: true,
        subtree: true,
      });
    });
    await step(lineOut, "less", 14);
    const gaps = await page.evaluate(() => {
      const { seen } = window as unknown as { seen: number[] };
      return seen.slice(1).map((at, i) => at - (seen[i] as number));
    });
    expect(gaps.length).toBeGreaterThan(0);
    for (const gap of gaps) expect(gap).toBeGreaterThan(450);
  });

  await test.step("all rods together: one dial turns all, and one undo takes it back", async () => {
    const set = () => page.locator(".rod-set").allTextContents();
    const line = (all: string[]) => all.map((one) => Number.parseFloat(one));
    await settled(page);
    const before = await set();
    await page.getByRole("button", { name: "Dial all rods together" }).click();
    const lineOut = await dial(page, "Line out");
    // The number is of one rod, what is dialled goes for all.
    await expect(lineOut).toContainText("rod 1 & all");
    await calm(page);
    await lineOut.getByRole("button", { name: "more" }).click();
    await settled(page);
    const after = line(await set());
    const [first = 0] = line(before);
    const by = (after[0] ?? 0) - first;
    expect(by).toBeGreaterThan(0);
    // As much more for each.
    expect(after).toEqual(line(before).map((one) => one + by));
    // What is dialled is not announced: the offer stands one tap away.
    await calm(page);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.locator(".done")).toContainText(/Line out of all rods: changed; rod 1 was \d+.ft\./);
    await calm(page);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(set).toEqual(before);

    // Off again, it is the rod in hand alone.
    await page.getByRole("button", { name: "Dial all rods together" }).click();
    await calm(page);
    await lineOut.getByRole("button", { name: "more" }).click();
    await expect.poll(async () => line(await set())).toEqual([first + by, ...line(before).slice(1)]);
  });

  await test.step("a wet double tap counts once", async () => {
    const lineOut = await dial(page, "Line out");
    await type(lineOut, "200");
    await standing(page, () => lineOut.getByRole("button", { name: "more" }).dblclick());
    expect(await shownIn(lineOut)).toContain("205");

    const rods = await page.locator(".rod").count();
    await standing(page, () => page.getByRole("button", { name: "Add a rod" }).dblclick());
    await expect(page.locator(".rod")).toHaveCount(rods + 1);

    await page.locator(".rod-more a").first().click();
    await pass(page, 600);
    await page.getByRole("link", { name: "Depth card" }).click();
    await pass(page, 600);
    const back = page.getByRole("link", { name: "Back" });
    const rodPage = page.getByRole("link", { name: "Depth card" });
    await standing(page, async () => {
      await back.click();
      await expect(rodPage).toBeVisible();
      await back.click();
    });
    await expect(rodPage).toBeVisible();
    await pass(page, 600);
    await back.click();
    await expect(page.locator(".rod")).toHaveCount(rods + 1);
    await pass(page, 300);
  });

  await test.step("rods are added up to eight, taken in, and that is undone", async () => {
    const add = page.getByRole("button", { name: "Add a rod" });
    await expect(add).toBeVisible();
    while (await add.isVisible()) {
      await add.click();
      await pass(page, 550);
    }
    await expect(page.locator(".rod")).toHaveCount(8);
    await settled(page);
    const before = await page.locator(".rod-face").allTextContents();

    await rod(page, 3).locator(".rod-face").click();
    await follow(page, "More");
    await follow(page, "Place and rig");
    await page.getByRole("button", { name: "Take this rod in" }).click();
    await expect(page.locator(".rod")).toHaveCount(7);
    await pass(page, 300);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.locator(".rod")).toHaveCount(8);
    await settled(page);
    expect(await page.locator(".rod-face").allTextContents()).toEqual(before);
  });
});

test("what one asks about a rod agrees with the depth on Lines", async ({ lines: page }) => {
  await test.step("the slowest speed agrees with the spread on either side of it", async () => {
    await follow(page, "More");
    await follow(page, "How slow");
    await expect(page.locator(".huge")).toHaveText(/^\d\.\d\s±\s\d\.\d\skn$/);
    const knots = Number.parseFloat(await page.locator(".huge").innerText());
    await pass(page, 300);
    await follow(page, "Wirewake");
    const speed = await dial(page, "Speed");
    await type(speed, String(knots - 0.1));
    await expect(rod(page, 1)).toContainText("On the bottom");
    await type(speed, String(knots + 0.1));
    await expect(rod(page, 1)).not.toContainText("On the bottom");
    await type(speed, "3.3");
  });

  await test.step("the depth card has physics with its band beside the labelled rule", async () => {
    await type(await dial(page, "Line out"), "200");
    await settled(page);
    const shown = await rod(page, 1).locator(".readout").innerText();
    await follow(page, "More");
    await follow(page, "Depth card");
    const row = page.locator(".card.large tr", { hasText: /^200/ });
    await expect(row.locator("td").first()).toHaveText(shown.replace(/\s*ft$/, ""));
    await expect(page.locator(".card caption").first()).toContainText("common practice, no source");
    await go(page, "lines");
  });

  await test.step("says what to do, and doing it brings the lure into the band", async () => {
    const lineOut = await dial(page, "Line out");
    await type(lineOut, "100");
    await expect(rod(page, 1)).toContainText("Too high");
    await settled(page);
    const advice = await rod(page, 1).locator(".rod-advice").innerText();
    const more = Number(/Let out (\d+)\sft/.exec(advice)?.[1]);
    await type(lineOut, String(100 + more));
    await expect(rod(page, 1)).toContainText(/where wanted/i);
    await expect(rod(page, 1)).not.toContainText(/Let out|Take in/);
    await type(lineOut, "450");
    await expect(rod(page, 1)).toContainText(/Too deep|On the bottom/);
    await expect(rod(page, 1)).toContainText(/Take in \d+\sft/);
  });

  await test.step("says why when no line out will do, and what would", async () => {
    await type(await dial(page, "Bottom"), "400");
    // In the row as briefly as it can be, and whole by a tap on it.
    await expect(rod(page, 1).locator(".rod-advice")).toHaveText(/^(Add weight|Go \d\.\d\skn)$/);
    await settled(page);
    await rod(page, 1).locator(".rod-face").click();
    await expect(rod(page, 1).locator(".rod-explained")).toContainText(
      /Even all 300\sft of wire and \d+\sft of backing reach only/,
    );
  });

  await test.step("the drail that is nearest goes on with a tap", async () => {
    await type(await dial(page, "Line out"), "285");
    await type(await dial(page, "Bottom"), "60");
    await settled(page);
    await follow(page, "More");
    await follow(page, "Which drail?");
    const best = page.getByRole("button", { name: "Nearest" });
    // Depth and band promised are those that the rod then has.
    const promised = /run(?:s)? at (\d+\s±\s\d+)/.exec(await best.innerText())?.[1];
    expect(promised).toBeTruthy();
    await pass(page, 300);
    await best.click();
    await settled(page);
    await expect(rod(page, 1).locator(".readout")).toContainText(promised as string);
  });

  await test.step("the wanted band is set once for all rods", async () => {
    await follow(page, "Wanted");
    const high = page.getByRole("group", { name: "Upper edge" });
    await type(high, "20");
    await type(page.getByRole("group", { name: "Lower edge" }), "25");
    await expect(
      page.getByRole("alert").filter({ hasText: "Must" }).or(high.getByRole("alert")),
    ).not.toBeEmpty();
    await follow(page, "Back");
    await expect(page.getByRole("link", { name: "Wanted" })).toContainText(/3\sft to 20\sft/);
  });
});

test("who does about a rise what it wants is told no more of it", async ({ lines: page }) => {
  await test.step("who goes as fast as a rise wants is told nothing more of it, by factory settings and whichever rise it is", async () => {
    for (const depth of ["43", "41", "38"]) {
      await riseAhead(page, depth);
      await calm(page);
      const alarm = page.locator(".told-area .alarm");
      const [, speed = ""] = /Speed up to (\d\.\d)/.exec(await alarm.innerText()) ?? [];
      await type(await dial(page, "Speed"), speed);
      await settled(page);
      await pass(page, 3000);
      await expect(page.locator(".told-area"), depth).not.toContainText("Rise ahead");
      await expect(page.locator(".rod-advice.alarm")).toHaveCount(0);
      await expect(page.locator(".rod-advice").filter({ hasText: "Take in" })).toHaveCount(0);
      await type(await dial(page, "Speed"), "3.2");
      await page.goto("/#/lines/rise");
      await calm(page);
      await page.getByRole("button", { name: "Forget these" }).click();
    }
  });

  await test.step("who takes in what a rise wants, and then sets Bottom to it, is told no more to take in; noted and left, it stays red", async () => {
    await go(page, "lines");
    await type(await dial(page, "Speed"), "3.3");
    await riseAhead(page);
    await calm(page);
    await page.locator(".told-area .alarm button", { hasText: "Noted" }).click();
    const wants = page.locator(".rod-advice.alarm");
    await expect(wants.first()).toContainText("Take in");
    const colour = await page.evaluate(() => getComputedStyle(document.body).getPropertyValue("--alarm"));
    expect(await wants.first().evaluate((one) => getComputedStyle(one).getPropertyValue("color"))).toBe(
      await page.evaluate((alarm) => {
        const one = document.body.appendChild(document.createElement("i"));
        one.style.color = alarm;
        return getComputedStyle(one).color;
      }, colour),
    );
    for (const number of [1, 2, 3, 4]) {
      const order = await rod(page, number).locator(".rod-advice").innerText();
      const [, much] = /Take in (\d+)/.exec(order) ?? [];
      if (!much) continue;
      // No word says that it rides too high where line is to come in.
      await expect(rod(page, number).locator(".odds svg")).toHaveCount(0);
      await calm(page);
      await rod(page, number).locator(".rod-face").click();
      await calm(page);
      const lineOut = await dial(page, "Line out");
      await type(lineOut, String(Number((await shownIn(lineOut)).match(/\d+/)?.[0]) - Number(much)));
    }
    await settled(page);
    await pass(page, 3000);
    await expect(wants).toHaveCount(0);
    await calm(page);
    await type(await dial(page, "Bottom"), "38");
    await settled(page);
    await expect(page.locator(".rod-advice").filter({ hasText: "Take in" })).toHaveCount(0);
  });
});

test("a tap that lines are in, or that one touched, counts once, and the notes of the trip tell it", async ({
  lines: page,
}) => {
  await test.step("all lines come in by one tap: no lure is warned of until they are out again, and the notes tell both", async () => {
    await startTrip(page);
    await page.goto("/#/lines/rise");
    await calm(page);
    await page.getByRole("button", { name: "Still" }).click();
    await pass(page, 1200);
    await type(page.getByRole("group", { name: "Depth now" }), "38");
    await page.goto("/#/lines");
    const alarm = page.locator(".told-area .alarm");
    await expect(alarm).toContainText("Rise ahead");
    await calm(page);
    const allIn = page.getByRole("button", { name: "All lines in" });
    await allIn.click();
    await expect(alarm).toHaveCount(0);
    await expect(page.locator(".told-area")).toContainText("All lines are in: no lure is warned of.");
    await expect(allIn).toHaveCount(0);
    await expect(page.locator(".rod .verdict").filter({ hasText: /^in$/ })).toHaveCount(4);
    await expect(page.locator(".rod .odds, .rod-advice, .towed")).toHaveCount(0);
    await expect(page.locator(".touch-now")).toBeDisabled();
    // Through a restart.
    await reload(page);
    await expect(page.locator(".rod .verdict").filter({ hasText: /^in$/ })).toHaveCount(4);
    await expect(page.locator(".told-area")).toContainText("All lines are in: no lure is warned of.");
    await settled(page);
    for (const pose of poseNames) {
      await hold(page, pose);
      expect.soft(await faults(page), `all in, ${pose}`).toEqual([]);
    }
    await hold(page, "small phone");
    await page.getByRole("button", { name: "Out again" }).click();
    await expect(alarm).toContainText("Rise ahead");
    await expect(allIn).toHaveCount(1);
    await allIn.click();
    await expect(alarm).toHaveCount(0);
    // Who sets a rod has it in the water.
    await page.locator(".stepper").getByRole("button", { name: "more" }).click();
    await expect(alarm).toContainText("Rise ahead");
    await page.goto("/#/notes");
    await expect(row(page, "Lines set").first()).toContainText("all in");
    await expect(row(page, "Lines set")).toHaveCount(3);
    await expect(row(page, "4 rods out")).toHaveCount(1);
  });

  await test.step("tapped twice at once a touch counts once, and that is said; later it is another", async () => {
    await go(page, "lines/rise");
    await page.getByRole("button", { name: "Forget these" }).click();
    await page.goto("/#/lines");
    await calm(page);
    const touched = page.locator(".touch-now");
    await touched.click();
    await pass(page, 600);
    await touched.click();
    await expect(page.locator(".notice.done")).toContainText("Tapped twice: it counts once.");
    await pass(page, 1500);
    await calm(page);
    await touched.click();
    await expect(page.locator(".notice.done")).not.toContainText("Tapped twice");
    // One that is taken back is none: a tap right after is another.
    await pass(page, 2500);
    await standing(page, async () => {
      await touched.click();
      await pass(page, 600);
      await page.locator(".notice.done button").click();
      await pass(page, 600);
      await touched.click();
      await pass(page, 600);
    });
    await page.goto("/#/notes");
    await expect(row(page, "Touched bottom").filter({ hasNotText: "Struck" })).toHaveCount(3);
  });
});
