/** What the tests do over and over, and a page of the app on a server of its own. */
import { test as base, expect, type Locator, type Page } from "@playwright/test";
import { comeAboard } from "./notes";
import { hasty, pass, phone, prepare, quiet, serviceWorkers } from "./phone";
import { type Server, startServer } from "./server";

export { expect, type Locator, type Page };

interface Fixtures {
  /** The boat's, of this test alone: what another test left there would be brought to its phones. */
  server: Server;
  /** Another phone in the same browser, come aboard by an invitation from the terminal. */
  aboard: (name: string, role: string, ...more: string[]) => Promise<Page>;
  /** A phone on the Lines place with the first answer on screen. */
  lines: Page;
  /** Sees to it that no phone goes on after the test. */
  ended: undefined;
}

export const test = base.extend<Fixtures>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the fixtures it needs from this pattern
  server: async ({}, use) => {
    const server = await startServer();
    await use(server);
    await server.stop();
  },
  aboard: ({ browser, server }, use) =>
    use(async (name, role, ...more) => {
      const page = await phone(browser, { baseURL: server.url });
      await comeAboard(page, server, name, server.invite(role, ...more));
      return page;
    }),
  ended: [
    async ({ browser }, use) => {
      await use(undefined);
      expect(hasty.splice(0), "taps on pages that had only just come up").toEqual([]);
      await Promise.all(browser.contexts().map((one) => one.close()));
    },
    { auto: true },
  ],
  baseURL: ({ server }, use) => use(server.url),
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the fixtures it needs from this pattern
  serviceWorkers: ({}, use) => use(serviceWorkers()),
  context: async ({ context }, use) => use(await prepare(context)),
  lines: async ({ page }, use) => {
    const faults = watch(page);
    await page.goto("/#/lines");
    await answered(page);
    await use(page);
    expect(faults).toEqual([]);
  },
});

/** Collects what the page reports as errors, the content security policy's refusals included. */
export function watch(page: Page): string[] {
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(message.text());
  });
  return faults;
}

export const rod = (page: Page, number: number): Locator => page.locator(".rod").nth(number - 1);

/** Depth of a rod's lure as shown, in the unit shown. */
export async function depthOf(page: Page, number = 1): Promise<number> {
  return Number((await rod(page, number).locator(".readout").innerText()).split(/\s|±/)[0]);
}

export const answered = (page: Page) => expect(rod(page, 1).locator(".readout")).toHaveText(/\d.*±.*\d/);

/** Waits until the calculator has answered, and readouts, which change at most twice a second, have come to rest. */
export async function settled(page: Page): Promise<void> {
  const rods = page.locator(".rods");
  await expect(async () => {
    const before = await rods.innerText();
    await pass(page, 600);
    await quiet(page);
    expect(await rods.innerText()).toBe(before);
  }).toPass({ intervals: [0, 20, 100] });
}

/** The stepper in hand, after its dial has been chosen. */
export async function dial(
  page: Page,
  name: "Line out" | "Drail" | "Sinker" | "Speed" | "Bottom",
): Promise<Locator> {
  await page.locator(".dial", { hasText: name }).click();
  return page.getByRole("group", { name });
}

/** Taps a step button so often, as slowly as a finger does. */
export async function step(stepper: Locator, direction: "more" | "less", times: number): Promise<void> {
  const button = stepper.getByRole("button", { name: direction });
  for (let i = 0; i < times; i++) {
    await button.click();
    await pass(stepper.page(), 150);
  }
}

/** Types a number into a stepper. */
export async function type(stepper: Locator, typed: string): Promise<void> {
  await stepper.locator("button.stepper-value").click();
  await stepper.locator("input").fill(typed);
  await stepper.locator("input").press("Enter");
}

export const shownIn = (stepper: Locator): Promise<string> => stepper.locator(".readout").innerText();

/** Goes to a page by its address, and lets the time go by in which a tap there would be taken for an echo of the last. */
export async function go(page: Page, address: string): Promise<void> {
  await page.goto(`/#/${address}`);
  await pass(page, 300);
}

/** Follows a link, and lets the time go by in which a tap there would be taken for an echo of the last. */
export async function follow(page: Page, name: string): Promise<void> {
  await page.getByRole("link", { name }).first().click();
  await pass(page, 300);
}
