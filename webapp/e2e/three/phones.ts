/** Skipper, mate and guest on one boat, over TLS of its own authority: the stories that want three phones. */
import { test as base, expect, type Locator, type Page } from "../app";
import { calm, comeAboard, exchangeNow, row, startTrip, writeNote } from "../notes";
import { cut, phone } from "../phone";
import { type SecureBoat, secureBoat, type Trusting, trusting } from "../tls";

export { expect, type Page };

/** Skipper, mate and guest. */
export interface Three {
  ann: Page;
  ben: Page;
  gus: Page;
}

interface Fixtures {
  boat: SecureBoat;
  /** A phone that comes aboard by an invitation from the terminal. */
  aboard: (name: string, role: string, ...more: string[]) => Promise<Page>;
  /** A guest of the trip that this phone notes in. */
  guestOf: (host: Page, name: string) => Promise<Page>;
  /** All three in the skipper's trip. */
  three: Three;
}

export const test = base.extend<Fixtures, { known: Trusting }>({
  known: [
    // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the fixtures it needs from this pattern
    async ({}, use) => {
      const known = await trusting();
      await use(known);
      await known.end();
    },
    { scope: "worker" },
  ],
  boat: async ({ known }, use) => {
    const boat = await secureBoat(known);
    await use(boat);
    await boat.end();
  },
  aboard: ({ boat }, use) =>
    use(async (name, role, ...more) => {
      const page = await phone(boat.browser, { baseURL: boat.server.url });
      await comeAboard(page, boat.server, name, boat.server.invite(role, ...more));
      return page;
    }),
  guestOf: ({ aboard }, use) =>
    use(async (host, name) => {
      await host.goto("/#/notes");
      const [, id = ""] =
        /trip\/(.*)$/.exec((await host.locator("a.notes-trip").getAttribute("href")) ?? "") ?? [];
      return aboard(name, "guest", "--trip", id);
    }),
  three: async ({ aboard, guestOf }, use) => {
    const ann = await aboard("Ann", "skipper");
    await startTrip(ann);
    await writeNote(ann, "first of the trip");
    await expect(sending(ann)).toContainText("All sent");
    const ben = await aboard("Ben", "mate");
    const gus = await guestOf(ann, "Gus");
    for (const page of [ben, gus]) {
      await notes(page);
      await expect(row(page, "first of the trip")).toBeVisible();
    }
    await use({ ann, ben, gus });
  },
});

export const sending = (page: Page): Locator => page.locator(".sending");

export const notes = async (page: Page): Promise<void> => {
  await page.goto("/#/notes");
  await calm(page);
};

/** A page of the app, with time gone by since it came up. */
export const visit = async (page: Page, path: string): Promise<void> => {
  await page.goto(`/#/${path}`);
  await expect(page.getByRole("heading").first()).toBeVisible();
  await calm(page);
};

export const tap = async (page: Page, name: string | RegExp): Promise<void> => {
  await calm(page);
  await page.getByRole("button", { name }).click();
};

/** No network: the phones hear nothing of each other nor of the boat's server. */
export const cutOff = async (pages: Page[]): Promise<void> => {
  for (const page of pages) await cut(page);
};

/** Back in the network, each with an exchange; the first ones a second time, for what the later ones brought. */
export const together = async (pages: Page[]): Promise<void> => {
  for (const page of pages) await page.context().setOffline(false);
  for (const page of [...pages, ...pages.slice(0, -1)]) {
    await exchangeNow(page);
    await expect(sending(page)).toContainText("All sent");
  }
};
