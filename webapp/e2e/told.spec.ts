/** Whatever Lines tells, in every pose: rods, dials and what is noted in one tap stay in sight, and no tap goes to what has just moved. */
import { riseAhead, stopCalculating } from "./alarms";
import { answered, dial, expect, type Page, rod, settled, shownIn, step, test } from "./app";
import { faults } from "./layout";
import { calm } from "./notes";
import { pass, reload, standing } from "./phone";
import { hold, holdAs, type PoseName, poseNames } from "./poses";
import { setDial, touchAll } from "./touches";

/** In another language than the phone's own. */
async function speak(page: Page, language: string): Promise<void> {
  await page.evaluate((language) => localStorage.setItem("language", language), language);
  await reload(page);
  await answered(page);
}

test("a three-way that carries a drail hides no rod, in either language", async ({ lines: page }) => {
  await page.goto("/#/gear/rigs");
  await page.locator(".links a").first().click();
  await pass(page, 300);
  await page.locator('.choice input[type="radio"]').last().check();
  await page.goto("/#/lines");
  const inPoses = async (what: string, poses: PoseName[]) => {
    for (const pose of poses) {
      await hold(page, pose);
      expect.soft(await faults(page), `${what}, ${pose}`).toEqual([]);
    }
    await hold(page, "small phone");
  };
  for (const language of ["en", "es"]) {
    if (language !== "en") await speak(page, language);
    await settled(page);
    await expect(page.locator(".dial")).toHaveCount(5);
    await inPoses(language, ["small phone", "phone", "small phone sideways", "phone sideways"]);
  }
  for (const language of ["es", "en"]) {
    if (language !== "es") await speak(page, language);
    await settled(page);
    await calm(page);
    await page.locator(".touch-now").click();
    await settled(page);
    await expect(page.locator(".notice.done")).toBeVisible();
    await standing(page, () =>
      inPoses(`a touch, ${language}`, ["small phone", "phone", "small phone sideways", "computer"]),
    );
    // In the next language it is the only one again.
    await calm(page);
    await page.locator(".undo").click();
  }
});

for (const [language, said] of [
  [
    "en",
    [
      "Rise ahead",
      "1 of 2. Next: Calculator stopped",
      "The calculator does not start",
      "2 of 2. Next: Rise ahead",
    ],
  ],
  ["es", ["Bajo adelante", "1 de 2. Sigue: ", "La calculadora no arranca", "2 de 2. Sigue: Bajo adelante"]],
] as const)
  test(`beside an alarm all else is one line, and rods stay in sight, in ${language}`, async ({
    lines: page,
  }) => {
    if (language !== "en") await speak(page, language);
    await riseAhead(page);
    // Come back to the link at the foot, the rods that it is about are in sight all the same.
    await expect(page.locator(".told-area .alarm")).toContainText(said[0]);
    await expect(rod(page, 1).locator(".rod-face")).toBeInViewport({ ratio: 1 });
    await expect(page.locator(".told-area .notice")).toHaveCount(1);
    await expect(page.locator(".told-area .waiting")).toBeHidden();
    await settled(page);
    // Every other pose in each language; a small phone in both.
    const held = poseNames.filter(
      (pose, i) => pose === "small phone" || i % 2 === (language === "en" ? 0 : 1),
    );
    const inPoses = async (what: string) => {
      for (const pose of held) {
        await hold(page, pose);
        expect.soft(await faults(page), `${what}, ${pose}`).toEqual([]);
      }
      await hold(page, "small phone");
    };
    await inPoses("one alarm");
    const buttons = page.locator(".told-area .alarm .notice-actions > :visible");
    expect(
      new Set(await buttons.evaluateAll((all) => all.map((one) => one.getBoundingClientRect().top))).size,
    ).toBe(1);
    // A second one.
    await stopCalculating(page);
    const next = page.locator(".told-area .other-alarms");
    for (const [told, other] of [said.slice(0, 2), said.slice(2)] as [string, string][]) {
      await expect(page.locator(".told-area .alarm")).toContainText(told);
      await expect(next).toContainText(other);
      await inPoses(`${told}, of two`);
      await calm(page);
      await next.click();
    }
    await expect(page.locator(".told-area .alarm")).toContainText(said[0]);
    await page.locator(".wet-lock-button").click();
    await expect(page.locator(".wet-lock .alarm")).toContainText(said[0]);
    await expect(page.locator(".wet-lock").getByRole("button")).toHaveCount(2);
    await inPoses("locked");
  });

for (const language of ["en", "es"])
  test(`whatever is told, all four rods stay in sight, in ${language}`, async ({ lines: page }) => {
    if (language !== "en") await speak(page, language);
    const inSight = async (told: string) => {
      await settled(page);
      await expect(page.locator(".rod")).toHaveCount(4);
      await expect(page.locator(".told-area .notice")).toHaveCount(told ? 1 : 0);
      for (const pose of ["small phone", "phone", "small phone sideways", "zoomed to 200 %"] as const) {
        await hold(page, pose);
        expect.soft(await faults(page), `${told}, ${pose}`).toEqual([]);
      }
      await hold(page, "small phone");
    };
    await inSight("the caution");
    // Nothing of it is cut: that is a fault like any other.
    await expect(page.locator(".first-steps")).toContainText(
      language === "en" ? "Wire under load cuts" : "corta",
    );
    await calm(page);
    await page.locator(".notice-actions button").click();
    await inSight("");
    // So deep that each is to let out.
    await setDial(page, 3, "62");
    await expect(page.locator(".rod-advice")).toHaveCount(4);
    await inSight("");

    await touchAll(page, async (bottom) => {
      // Every row says what to do, and what the touch has taught is told: the most words there are.
      if (bottom === "46") await standing(page, () => inSight("a touch"));
    });
    await pass(page, 11_000);
    await expect(page.locator(".notice.brief")).toBeVisible();
    await inSight("a contradiction");
    // Two things to tell at once: one whole, the other in a line below it.
    await calm(page);
    await standing(page, async () => {
      await page.locator(".undo").click();
      await expect(page.locator(".waiting")).toContainText(language === "en" ? "contradicts" : "contradice");
      await inSight("what was done, and a contradiction");
    });
  });

for (const language of ["en", "es"])
  test(`sideways in larger letters, or on a smaller phone, rods, dials and Mark are in sight, in ${language}`, async ({
    lines: page,
  }) => {
    if (language !== "en") await speak(page, language);
    await calm(page);
    await page.locator(".told-area .notice-actions button").click();
    // Every row says what to do.
    await setDial(page, 3, "62");
    await settled(page);
    for (const [width, height, letters] of [
      [740, 360, 1.1],
      [740, 360, 1.2],
      [844, 390, 1.3],
      [667, 375, 1],
      [640, 360, 1],
      [740, 360, 2],
    ] as const) {
      const what = `${width} × ${height}, letters ${letters}`;
      await holdAs(page, { width, height, letters });
      await expect(page.locator("html"), what).toHaveAttribute(
        "data-pose",
        letters === 2 ? "flow" : "sideways",
      );
      for (const place of ["pace", "notes", "fish", "crew", "lines"]) {
        const there = `${place}, ${what}`;
        await page.evaluate((place) => {
          location.hash = `#/${place}`;
        }, place);
        await expect(page.locator(`.place.${place}`)).toBeVisible();
        await pass(page, 300);
        // What else Crew has there is scrolled to.
        const found = (await faults(page)).filter((one) => place !== "crew" || !/^of the deck/.test(one));
        expect.soft(found, there).toEqual([]);
        if (letters < 2 || place === "lines")
          await expect.soft(page.locator(".mark-now"), there).toBeInViewport({ ratio: 1 });
        if (letters === 2) continue;
        const tops = await page
          .locator(".quick-bar > *")
          .evaluateAll((all) => all.map((one) => Math.round(one.getBoundingClientRect().top)));
        if (place === "notes") {
          const [mark, fish] = await Promise.all(
            [".mark-now", ".fish-up"].map(async (one) => (await page.locator(one).boundingBox())?.width ?? 0),
          );
          expect.soft(mark, there).toBeGreaterThan(1.3 * (fish ?? 0));
        }
        expect.soft(new Set(tops).size, `rows of what is noted in one tap in ${there}`).toBe(1);
      }
    }
  });

/** The half second after something has moved or come lasts until it is let go by. */
async function holdTaps(page: Page): Promise<() => Promise<void>> {
  await page.evaluate(() => {
    const { animate } = Element.prototype;
    Element.prototype.animate = function (this: Element, frames, how) {
      return animate.call(this, frames, { ...(how as KeyframeAnimationOptions), duration: 1_000_000 });
    };
  });
  return () =>
    page.evaluate(() => {
      for (const animation of document.getAnimations()) animation.finish();
    });
}

const nowhere = { x: 0, y: 0, width: 0, height: 0 };

test("no tap goes to what has just come or moved under the finger", async ({ lines: page }) => {
  const letGoBy = await holdTaps(page);
  await test.step("what has just moved under the finger is not tapped, and what has not is", async () => {
    const face = (number: number) => rod(page, number).locator(".rod-face");
    /** Near its upper edge. */
    const on = async (number: number) => {
      const { x, y, width } = (await face(number).boundingBox()) ?? { x: 0, y: 0, width: 0 };
      return [x + width / 2, y + 8] as const;
    };
    const touched = async () => {
      await calm(page);
      await page.locator(".touch-now").click();
      await expect(page.locator(".told-area .done")).toBeVisible();
    };
    // What was done lies over the picture.
    const second = await on(2);
    await letGoBy();
    await touched();
    expect(await on(2)).toEqual(second);
    await page.mouse.click(...second);
    await expect(face(2)).toHaveAttribute("aria-pressed", "true");

    // An alarm of many words would not have room enough there.
    await page.evaluate(() => {
      const longer = new CSSStyleSheet();
      longer.replaceSync(".told-area .alarm { min-height: 220px }");
      document.adoptedStyleSheets = [longer];
    });
    await pass(page, 11_000);
    await riseAhead(page);
    await settled(page);
    // Whatever has moved for the alarm is tapped again.
    await letGoBy();
    await face(1).click();
    await letGoBy();
    const lineOut = await dial(page, "Line out");
    const meant = await on(2);
    await calm(page);
    await page.locator(".told-area .alarm button", { hasText: "Noted" }).click();
    await expect(page.locator(".told-area .alarm")).toHaveCount(0);
    expect(meant[1] - (await on(2))[1]).toBeGreaterThan(16);
    await page.mouse.click(...meant);
    await expect(face(1)).toHaveAttribute("aria-pressed", "true");
    // What does not move takes taps all the while.
    const before = await shownIn(lineOut);
    await step(lineOut, "more", 1);
    expect(await shownIn(lineOut)).not.toBe(before);
    await letGoBy();
    await page.mouse.click(...(await on(2)));
    await expect(face(2)).toHaveAttribute("aria-pressed", "true");
    await page.evaluate(() => {
      document.adoptedStyleSheets = [];
    });
  });
  await test.step("an alarm that comes up under the finger is not dismissed by it: what lies below is tapped", async () => {
    const alarm = page.locator(".told-area .alarm");
    for (const pose of ["small phone sideways", "large letters"] as const) {
      await hold(page, "small phone");
      await riseAhead(page, pose === "large letters" ? "30" : "34");
      await hold(page, pose);
      await settled(page);
      await calm(page);
      const { x, y, width, height } = (await alarm.locator("button").first().boundingBox()) ?? nowhere;
      const [across, down] = [x + width / 2, y + height / 2];
      const below = await page.evaluate(
        ([x, y]) =>
          document.elementFromPoint(x, y)?.closest(".told-area, .place-list, .place-deck")?.className,
        [across, down] as const,
      );
      expect(below, pose).toMatch(/place/);
      await page.mouse.click(across, down);
      await pass(page, 600);
      await expect(alarm, pose).toBeVisible();
      await letGoBy();
      await calm(page);
      await page.mouse.click(across, down);
      await expect(alarm, pose).toHaveCount(0);
    }
  });
});
