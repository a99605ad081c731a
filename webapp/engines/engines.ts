/** The engines other than Chromium that the app is tried in, and a phone with one of them for each test. */
import { test as base, expect } from "@playwright/test";
import { type Server, startServer } from "../e2e/server";
import { firefox } from "./firefox";
import { Phone } from "./phone";
import { webkit } from "./webkit";

export const engines = { webkit, firefox };

export interface Choice {
  engine: string;
}

interface Fixtures {
  server: Server;
  /** Runs already; its engine ends with the test, which fails if its console told of faults. */
  phone: Phone;
}

/** What is no fault of the app: the server does not answer, or hears no instruments; an engine knows a word of the policy not yet; a page was left. */
const allowed =
  /Fetch API cannot load|establish a connection to the server at \S+\/api\/instruments|Navigated away from page|Cache API operation failed: Context is stopped|Unrecognized Content-Security-Policy directive 'manifest-src'/;

export { expect };

export const test = base.extend<Choice & Fixtures>({
  engine: ["", { option: true }],
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the fixtures it needs from this pattern
  server: async ({}, use) => {
    const server = await startServer();
    await use(server);
    await server.stop();
  },
  phone: async ({ engine, server }, use, info) => {
    const phone = new Phone(engines[engine as keyof typeof engines], server);
    await phone.start();
    await use(phone);
    if (info.status !== info.expectedStatus) await phone.show(info).catch(() => undefined);
    await phone.throwAway();
    expect(phone.faults.filter((fault) => !allowed.test(fault))).toEqual([]);
  },
});
