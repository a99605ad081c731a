/** What is told on Lines comes and goes over the picture: rods and dials stay where they are, under the finger. */
import { riseAhead, stopCalculating } from "./alarms";
import { answered, expect, type Page, settled, test, type, watch } from "./app";
import { faults } from "./layout";
import { calm } from "./notes";
import { pass, reload, standing } from "./phone";
import { hold, holdAs, type PoseName, poseNames } from "./poses";
import { setDial, touchAll } from "./touches";

/** Where all flows as one page rows are as high as what they say; what is told lies over them. */
const flowing = poseNames.filter((name) => /large|400 %/.test(name));
const held = poseNames.filter((name) => !flowing.includes(name));

interface Box {
  name: string;
  left: number;
  top: number;
  right: number;
  bottom: number;
}

interface Looked {
  /** Rods, dials, the head, Mark and the places; a rod as if nothing were scrolled. Of one that flows what is on the screen. */
  boxes: Box[];
  /** What is told, and what of it is covered, cut, or on something that is tapped. */
  told: string[];
  wrong: string[];
  /** How large the letters of each rod's depth are. */
  numbers: number[];
}

/** Runs in the page. */
function look(): Looked {
  const boxOf = (one: Element): Box => {
    const { left, top, right, bottom } = one.getBoundingClientRect();
    const name = `${one.className}: ${(one.textContent ?? "").trim().slice(0, 24)}`;
    return { name, left, top, right, bottom };
  };
  const shown = (selector: string) =>
    [...document.querySelectorAll(selector)].filter((one) => one.checkVisibility());
  const list = document.querySelector(".place-list") as HTMLElement;
  const scrolled = list.scrollTop;
  const rods = shown(".rod")
    .slice(0, 4)
    .map((one, i) => {
      const box = boxOf(one);
      return { ...box, name: `rod ${i + 1}`, top: box.top + scrolled, bottom: box.bottom + scrolled };
    });
  const dials = shown(".lines .stepper, .lines .dial").map((one, i) => ({
    ...boxOf(one),
    name: `dial ${i}`,
  }));
  const inHand = shown(".lines .stepper .readout").map((one) => ({
    ...boxOf(one),
    name: "the number in hand",
  }));
  const others = shown(".quick-bar > *, .bar a, .overboard-button, .corner:not(.undo)").map(boxOf);
  const flows = document.documentElement.dataset.pose === "flow";
  const wrong: string[] = [];
  const view = list.getBoundingClientRect();
  for (const { name, top, bottom } of flows ? [] : rods)
    if (top < view.top - 1 || bottom > view.bottom + 1) wrong.push(`${name} is out of sight`);
  const told = shown(".told-area .notice, .told-area .waiting");
  const area = document.querySelector(".told-area") as HTMLElement;
  // Where all flows as one page more of it than there is room for is scrolled to.
  for (const one of flows && told.length > 0 ? [boxOf(area)] : told.map(boxOf)) {
    if (one.left < -1 || one.top < -1 || one.right > innerWidth + 1 || one.bottom > innerHeight + 1)
      wrong.push(`outside the screen: ${one.name}`);
    // Over one page that flows it lies, and has its room at the end.
    for (const other of flows
      ? others.filter((one) => !/corner/.test(one.name))
      : [...rods, ...dials, ...inHand, ...others])
      if (
        Math.min(one.right, other.right) - Math.max(one.left, other.left) > 1 &&
        Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 1
      )
        wrong.push(`${one.name} lies on ${other.name}`);
  }
  // What was done stands beside what is done about an alarm: over no word and no button of it.
  for (const one of told)
    for (const other of told) {
      if (one === other || (one.matches(".alarm") && other.matches(".done"))) continue;
      const { left, top, right, bottom } = one.getBoundingClientRect();
      for (const part of other.querySelectorAll("p, button, a")) {
        if (!part.checkVisibility()) continue;
        const words = document.createRange();
        words.selectNodeContents(part);
        for (const box of part.matches("p") ? words.getClientRects() : [part.getBoundingClientRect()])
          if (
            Math.min(right, box.right) - Math.max(left, box.left) > 1 &&
            Math.min(bottom, box.bottom) - Math.max(top, box.top) > 1
          )
            wrong.push(`${one.className} lies on “${part.textContent}”`);
      }
    }
  // Where nothing may be tapped for a moment nothing is found under a finger either.
  for (const guard of document.getAnimations()) guard.cancel();
  if (!flows && told.length > 0 && area.scrollHeight > area.clientHeight + 1)
    wrong.push("what is told is cut");
  for (const trouble of shown(".lines .field-trouble:not(:empty)")) {
    const { left, top, right, bottom } = trouble.getBoundingClientRect();
    // A tap goes through it to its dial: that it would stop one says that it lies on top.
    (trouble as HTMLElement).style.pointerEvents = "auto";
    for (const y of [top + 2, (top + bottom) / 2, bottom - 2]) {
      const over = document
        .elementsFromPoint((left + right) / 2, y)
        .find((one) => one.checkVisibility({ opacityProperty: true }));
      if (over !== trouble) wrong.push(`covered by ${over?.outerHTML.slice(0, 60)}: ${trouble.textContent}`);
    }
    (trouble as HTMLElement).style.pointerEvents = "";
    const deck = trouble.closest(".place-deck")?.getBoundingClientRect();
    if (trouble.scrollWidth > trouble.clientWidth + 1 || top < (deck?.top ?? 0))
      wrong.push(`cut: ${trouble.textContent}`);
    for (const step of trouble.parentElement?.querySelectorAll(".step") ?? []) {
      const box = step.getBoundingClientRect();
      const middle = (box.left + box.right) / 2;
      if (middle > left - 12 && middle < right + 12) wrong.push(`${trouble.textContent} lies on a sign`);
    }
  }
  const boxes = [...rods, ...dials, ...others].filter((one) => !flows || one.top < innerHeight);
  const numbers = shown(".rod .readout").map((one) => Number.parseFloat(getComputedStyle(one).fontSize));
  return { boxes, told: told.map((one) => one.className), wrong, numbers };
}

/** Runs in the page: what of a place is covered when it has come into sight as one goes on by keyboard. */
function hidden(): string[] {
  for (const guard of document.getAnimations()) guard.cancel();
  const all = [
    ...document.querySelectorAll<HTMLElement>(
      ".place-list :is(a, button), .place-deck > :not(.quick-bar) button",
    ),
  ];
  // What had the focus before the phone was held otherwise does not come into sight by having it again.
  (document.activeElement as HTMLElement | null)?.blur();
  return [...all, ...all.toReversed()].flatMap((one) => {
    if (!one.checkVisibility() || (one as HTMLButtonElement).disabled) return [];
    one.focus();
    const { left, right, top, bottom } = one.getBoundingClientRect();
    const seen = [top + 4, bottom - 4].every((y) => {
      const over = document.elementFromPoint((left + right) / 2, y);
      return over && (one === over || one.contains(over));
    });
    return seen ? [] : `${one.className}: ${one.textContent}`;
  });
}

type All = Map<PoseName, Looked>;

async function lookInAll(page: Page, poses = held): Promise<All> {
  const all: All = new Map();
  await standing(page, async () => {
    for (const pose of poses) {
      await hold(page, pose);
      all.set(pose, await page.evaluate(look));
    }
  });
  await hold(page, "small phone");
  return all;
}

/** What has moved by more than a pixel. */
function moved(before: All, after: All): string[] {
  return [...before.keys()].flatMap((pose) => {
    const [was, is] = [before.get(pose)?.boxes ?? [], after.get(pose)?.boxes ?? []];
    if (was.length !== is.length) return `${pose}: ${was.length} parts were there, now ${is.length}`;
    return was.flatMap((one, i) => {
      const now = is[i] as Box;
      const by = (["left", "top", "right", "bottom"] as const).map((edge) => now[edge] - one[edge]);
      return by.some((px) => Math.abs(px) > 1)
        ? `${pose}: ${one.name} by ${by.map((px) => Math.round(px)).join(", ")}`
        : [];
    });
  });
}

/** A test in each language, on a phone with the first answer on screen. */
function inEach(title: string, body: (page: Page, language: string) => Promise<void>): void {
  for (const language of ["en", "es"])
    test(`${title}, in ${language}`, async ({ page }) => {
      const reported = watch(page);
      await page.addInitScript((language) => localStorage.setItem("language", language), language);
      await page.goto("/#/lines");
      await answered(page);
      await body(page, language);
      expect(reported).toEqual([]);
    });
}

inEach("whatever comes to be told, rods and dials stay where they are", async (page) => {
  await settled(page);
  const bare = async (what: string): Promise<All> => {
    const all = await lookInAll(page);
    for (const [pose, { told, wrong }] of all)
      expect.soft([told, wrong], `${what}, ${pose}`).toEqual([[], []]);
    return all;
  };
  let before: All = new Map();
  /** The same as before it was told; if nothing was to be told, only that. */
  const same = async (what: string, told: RegExp | undefined) => {
    const after = await lookInAll(page);
    expect.soft(moved(before, after), what).toEqual([]);
    for (const [pose, now] of after) {
      expect.soft(now.wrong, `${what}, ${pose}`).toEqual([]);
      if (told) expect.soft(now.told.join(), `${what}, ${pose}`).toMatch(told);
    }
    return after;
  };

  // The caution of the first start, and that it goes.
  before = await lookInAll(page);
  for (const [pose, { told, wrong }] of before) {
    expect.soft(wrong, `the caution, ${pose}`).toEqual([]);
    expect.soft(told.join(), `the caution, ${pose}`).toMatch(/notice/);
  }
  await calm(page);
  await page.locator(".told-area .notice-actions button").click();
  await expect(page.locator(".told-area .notice")).toHaveCount(0);
  const noted = await same("the caution is noted", undefined);
  for (const [pose, { numbers }] of noted) {
    const [inHand = 0, other = 0] = numbers;
    // In the narrowest rows there is no room for it.
    if (pose !== "zoomed to 200 %")
      expect.soft(inHand, `the number of the rod in hand, ${pose}`).toBeGreaterThan(other);
  }

  // Every row says what to do: the most words there are.
  await calm(page);
  await setDial(page, 3, "62");
  await settled(page);
  await expect(page.locator(".rod-advice")).toHaveCount(4);
  await same("a dial is turned", undefined);
  await page.locator(".stepper .step").last().click();
  await settled(page);
  before = await bare("undo in the head");

  for (const [what, typed] of [
    ["out of range", "99999"],
    ["no number", "abc"],
  ] as const) {
    await type(page.locator(".place-deck .stepper"), typed);
    await expect(page.locator(".field-trouble")).not.toBeEmpty();
    await settled(page);
    await same(what, undefined);
  }
  await setDial(page, 3, "46");
  await setDial(page, 0, "220");
  await settled(page);

  await calm(page);
  await page.locator(".touch-now").click();
  await settled(page);
  await expect(page.locator(".told-area .done")).toBeVisible();
  await standing(page, () => same("a touch", /done/));
  await pass(page, 11_000);
  await expect(page.locator(".told-area .done")).toHaveCount(0);
  await same("the touch has been told", undefined);

  // Marked, and back before it has been told to its end.
  await calm(page);
  await page.locator(".mark-now").click();
  await expect(page).toHaveURL(/notes\/told/);
  await calm(page);
  await page.goto("/#/lines");
  await settled(page);
  await same("a mark", undefined);
  await page.locator(".undo").click();
  await expect(page.locator(".told-area .done")).toBeVisible();
  await standing(page, () => same("what can be taken back", /done/));
  await pass(page, 11_000);

  await calm(page);
  await page.locator(".rod-list-foot .button").nth(1).click();
  await expect(page.locator(".rod .odds")).toHaveCount(0);
  await expect(page.locator(".told-area .done")).toBeVisible();
  await standing(page, () => same("all lines in", /done/));
  await pass(page, 11_000);
  await same("all lines are in", /notice/);
});

inEach("offers and alarms leave rods and dials where they are", async (page) => {
  await calm(page);
  await page.locator(".told-area .notice-actions button").click();
  await touchAll(page);
  await pass(page, 11_000);
  const brief = page.locator(".told-area .brief > button").first();
  await expect(brief).toBeVisible();
  await settled(page);
  const before = await lookInAll(page);
  const same = async (what: string, told: RegExp) => {
    const after = await lookInAll(page);
    expect.soft(moved(before, after), what).toEqual([]);
    for (const [pose, now] of after) {
      expect.soft(now.wrong, `${what}, ${pose}`).toEqual([]);
      expect.soft(now.told.join(), `${what}, ${pose}`).toMatch(told);
    }
  };
  await same("an offer", /notice/);
  // Opened it may cover what it needs, and closes by the same tap; nothing moves.
  await calm(page);
  await brief.click();
  await expect(brief).toHaveAttribute("aria-expanded", "true");
  expect(moved(before, await lookInAll(page))).toEqual([]);
  await calm(page);
  await brief.click();
  await expect(brief).toHaveAttribute("aria-expanded", "false");
  // Two things at once.
  await calm(page);
  await page.locator(".undo").click();
  await expect(page.locator(".told-area .done")).toBeVisible();
  await standing(page, () => same("what was done, and an offer", /done/));
  await pass(page, 11_000);

  await riseAhead(page);
  await settled(page);
  await same("an alarm", /alarm/);
  // The chance at the depth that is dialled is not told beside what to do for another.
  await expect(page.locator(".rod-advice.alarm")).toHaveCount(4);
  await expect(page.locator(".rod .odds")).toHaveCount(0);
  await calm(page);
  await page.locator(".touch-now").click();
  await expect(page.locator(".told-area .done")).toBeVisible();
  await settled(page);
  await standing(page, () => same("an alarm, and what was done", /alarm.*done/));
  await pass(page, 11_000);
  await stopCalculating(page);
  const next = page.locator(".told-area .other-alarms");
  for (const which of ["first", "second"]) {
    await expect(next).toBeVisible();
    await same(`two alarms, the ${which} of them`, /alarm/);
    await calm(page);
    await next.click();
  }
});

inEach("what is told hides nothing that is done about it", async (page, language) => {
  await test.step("where all flows as one page, what is told lies over its end and moves nothing", async () => {
    await settled(page);
    const look = async (what: string, told: RegExp) => {
      const all = await lookInAll(page, flowing);
      for (const [pose, now] of all) {
        expect.soft(now.wrong, `${what}, ${pose}`).toEqual([]);
        expect.soft(now.told.join(), `${what}, ${pose}`).toMatch(told);
      }
      return all;
    };
    const none = /^$/;
    let told = await look("the caution", /notice/);
    // WCAG 2.2, 2.4.11: what has the focus is not hidden.
    for (const pose of flowing) {
      await hold(page, pose);
      await pass(page, 300);
      expect.soft(await page.evaluate(hidden), pose).toEqual([]);
    }
    await hold(page, "small phone");
    await calm(page);
    await page.locator(".told-area .notice-actions button").click();
    await expect(page.locator(".told-area .notice")).toHaveCount(0);
    expect.soft(moved(told, await look("the caution is noted", none))).toEqual([]);

    await calm(page);
    await page.locator(".touch-now").click();
    await expect(page.locator(".told-area .done")).toBeVisible();
    // What has come of it changes what the rows say.
    await expect(page.locator(".told-area .done")).toContainText(language === "en" ? "learned" : "Aprendido");
    await settled(page);
    await pass(page, 1000);
    await standing(page, async () => {
      told = await look("a touch", /done/);
    });
    await pass(page, 11_000);
    // Its way back stands in the head, where room was kept for it.
    expect.soft(moved(told, await look("the touch has been told", none))).toEqual([]);
  });

  await test.step("no alarm is covered by what was done, and no rod out of sight for both", async () => {
    const undo = async (what: string, alarm: RegExp, rods = true) => {
      await calm(page);
      await page.locator(".undo").click();
      await standing(page, async () => {
        for (const [width, height, letters] of [
          [360, 740, 1],
          [390, 844, 1],
          [390, 844, 1.1],
          [390, 844, 1.2],
          [740, 360, 1],
          [740, 360, 1.2],
        ] as const) {
          const at = `${what}, ${width} × ${height}, letters ${letters}`;
          await holdAs(page, { width, height, letters });
          await expect(page.locator("html"), at).not.toHaveAttribute("data-pose", "flow");
          await pass(page, 300);
          const { told, wrong } = await page.evaluate(look);
          expect.soft(told.join(), at).toMatch(alarm);
          expect
            .soft(
              wrong.filter((one) =>
                (!rods
                  ? /lies on “|outside/
                  : letters === 1 || width < height
                    ? /lies on “|in hand|outside|rod \d/
                    : /lies on “|in hand|outside/
                ).test(one),
              ),
              at,
            )
            .toEqual([]);
          expect
            .soft(
              (await faults(page)).filter((one) => /notice|<p/.test(one)),
              at,
            )
            .toEqual([]);
        }
      });
      await hold(page, "small phone");
      await pass(page, 11_000);
    };
    await riseAhead(page);
    await undo("a rise", /alarm.*done/);
    await stopCalculating(page);
    await expect(page.locator(".told-area .other-alarms")).toBeVisible();
    await undo("two alarms", /alarm.*done/);
    await reload(page);
    await answered(page);
    await calm(page);
    await page.locator(".told-area .alarm button").first().click();
    await expect(page.locator(".told-area .alarm")).toHaveCount(0);
    // An alarm about which nothing can be done here.
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    });
    await page.locator(".stepper .step").last().click();
    await expect(page.locator(".told-area .alarm")).toBeVisible();
    await undo("what is not saved", /alarm.*done/, false);
  });
});
