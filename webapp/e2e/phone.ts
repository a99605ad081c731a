/**
 * A phone of the tests: a browser's context whose clock the test drives, so that nothing is waited for and nothing
 * depends on how busy the machine is.
 */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type Page,
  test,
} from "@playwright/test";

/** What the page itself tells of what it waits for. */
interface Told {
  /** Requests that the calculator has not answered. */
  asked: Set<number>;
  /** Followers of the receiver, and fixes that they were given. */
  following: Set<number>;
  fixes: number;
  /** Writing to the disk that is not over. */
  writing: Set<IDBTransaction>;
  /** The address of the page on screen, and whether it is being left. */
  at: string;
  leaving: boolean;
  /** How long, ms, until a tap is meant for the page that has come up; time stands still, as the test wants it. */
  fresh: number;
  still: boolean;
}

type Telling = { told: Told };

export const small = { viewport: { width: 360, height: 740 }, hasTouch: true } as const;

/**
 * In a test with @keeps phones keep the app by its service worker. In others they do without: to keep it takes them as long
 * as a short test.
 */
export const serviceWorkers = () => (test.info().tags.includes("@keeps") ? "allow" : "block");

/**
 * Taps on what had only just come up, which the app may take for an echo: whether it does would hang on the machine's
 * haste. Each is a fault of the test, which is told when it ends.
 */
export const hasty: string[] = [];

/** Makes a phone of a context that has loaded nothing yet. */
export async function prepare(context: BrowserContext): Promise<BrowserContext> {
  await context.clock.install();
  await context.exposeFunction("tellHaste", (what: string) => hasty.push(what));
  await context.addInitScript(tell);
  return context;
}

/** Another phone in the same browser. */
export async function phone(browser: Browser, options: BrowserContextOptions = {}): Promise<Page> {
  const context = await browser.newContext({ ...small, serviceWorkers: serviceWorkers(), ...options });
  return (await prepare(context)).newPage();
}

/** Until it is so in the page. It mostly is, and to ask is half the work of a wait, which outlives a page's going. */
async function until(page: Page, so: (given: number) => boolean, given = 0): Promise<void> {
  if (!(await page.evaluate(so, given).catch(() => false))) await page.waitForFunction(so, given);
}

/** From here on it says that it is this browser. */
export async function callItself(page: Page, userAgent: string): Promise<void> {
  const browser = await page.context().newCDPSession(page);
  await browser.send("Emulation.setUserAgentOverride", { userAgent });
}

/** Until the page that a tap leads to is there: time that goes by before does not count for it. */
const there = (page: Page, ms: number) =>
  until(
    page,
    (ms) => {
      const { told } = window as unknown as Partial<Telling>;
      if (!told) return true;
      if (told.leaving || told.at !== location.hash) return false;
      told.fresh -= ms;
      return true;
    },
    ms,
  );

/** Lets so many ms go by: whatever waits for them happens now. */
export async function pass(page: Page, ms: number): Promise<void> {
  await there(page, ms);
  await page.clock.runFor(ms);
}

const halted = new WeakSet<Page>();

/** While this is done time stands still, but for what is let go by. */
export async function standing<T>(page: Page, act: () => Promise<T>): Promise<T> {
  if (halted.has(page)) return act();
  await halt(page);
  halted.add(page);
  const stand = (still: boolean) =>
    page.evaluate((still) => Object.assign((window as unknown as Telling).told, { still }), still);
  await stand(true);
  try {
    return await act();
  } finally {
    await stand(false);
    halted.delete(page);
    await page.clock.resume();
  }
}

/** Time cannot be halted in the past: a busy machine needs a moment further ahead. */
async function halt(page: Page, ahead = 100): Promise<void> {
  const now = await page.evaluate(() => Date.now());
  await page.clock.pauseAt(now + ahead).catch(async () => {
    await page.clock.resume();
    await halt(page, 2 * ahead);
  });
}

/** So long, by the page's own clock, until something is so: nothing that waits longer has a part in it. */
export async function within(page: Page, ms: number, so: () => Promise<boolean>): Promise<void> {
  await standing(page, async () => {
    for (let gone = 0; gone < ms; gone += 50) {
      // What comes over the network needs the machine's time, and none of the page's.
      for (let tries = 0; tries < 40; tries++) if (await so()) return;
      await pass(page, 50);
    }
    if (!(await so())) throw new Error(`not so within ${ms} ms`);
  });
}

/** Until the calculator has answered all that it was asked. */
export async function quiet(page: Page): Promise<void> {
  await until(page, () => (window as unknown as Telling).told.asked.size === 0);
}

const source = join(import.meta.dirname, "../src/app/rooms");
const built = join(import.meta.dirname, "../../embed/dist/assets");
const isRoom = new RegExp(
  `^(${readdirSync(source)
    .map((file) => file.replace(/\.tsx?$/, ""))
    .join("|")})-[\\w-]+\\.js`,
);

/** Cuts the network of a page that has all rooms of the app, as a phone has that keeps it. */
export async function cut(page: Page): Promise<void> {
  const rooms = readdirSync(built).flatMap((file) => isRoom.exec(file)?.[0] ?? []);
  await page.evaluate(
    (rooms) => Promise.all(rooms.map((room) => import(`/assets/${room}`))),
    [...new Set(rooms)],
  );
  await page.context().setOffline(true);
}

/** Loads it anew when all that was entered is on the disk: what is being written goes with the page. */
export async function reload(page: Page): Promise<void> {
  await until(page, () => (window as unknown as Telling).told.writing.size === 0);
  await page.reload();
}

/** Does what makes the receiver tell a fix, and waits until it came, if anybody follows it. */
export async function fixed(page: Page, give: () => Promise<unknown>): Promise<void> {
  const before = await page.evaluate(() => (window as unknown as Telling).told.fixes);
  await give();
  await until(
    page,
    (before) => {
      const { following, fixes } = (window as unknown as Telling).told;
      return following.size === 0 || fixes > before;
    },
    before,
  );
}

function tell(): void {
  const told: Told = {
    asked: new Set(),
    following: new Set(),
    fixes: 0,
    writing: new Set(),
    at: location.hash,
    leaving: false,
    fresh: 0,
    still: false,
  };
  Object.assign(window, { told });

  addEventListener("hashchange", () =>
    Object.assign(told, { at: location.hash, leaving: false, fresh: told.still ? 0 : 250 }),
  );
  const { tellHaste } = window as unknown as { tellHaste(what: string): void };
  addEventListener(
    "click",
    (event) => {
      const target = (event.target as Element).closest<HTMLElement>(
        "button:not(.overboard-button), .page-foot a",
      );
      if (target && told.fresh > 0 && event.detail > 0) tellHaste(`${location.hash}: ${target.innerText}`);
    },
    true,
  );
  const { back, replaceState } = History.prototype;
  History.prototype.replaceState = function (this: History, ...to) {
    replaceState.apply(this, to);
    told.at = location.hash;
  };
  History.prototype.back = function (this: History) {
    told.leaving = true;
    back.call(this);
  };
  addEventListener("click", (event) => {
    const link = (event.target as Element).closest<HTMLAnchorElement>('a[href^="#"]');
    if (link && !event.defaultPrevented && link.hash !== location.hash) told.leaving = true;
  });

  const { postMessage } = Worker.prototype;
  const heard = new WeakSet<Worker>();
  Worker.prototype.postMessage = function (this: Worker, message: { id: number }) {
    told.asked.add(message.id);
    if (!heard.has(this))
      this.addEventListener("message", ({ data }) => {
        if ("id" in data) told.asked.delete(data.id);
        if ("died" in data) told.asked.clear();
      });
    heard.add(this);
    postMessage.call(this, message);
  };

  const { terminate } = Worker.prototype;
  Worker.prototype.terminate = function (this: Worker) {
    told.asked.clear();
    terminate.call(this);
  };

  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (this: IDBDatabase, names, mode, ...more) {
    const begun = transaction.call(this, names, mode, ...more);
    if (mode === "readwrite") {
      told.writing.add(begun);
      for (const end of ["complete", "abort"]) begun.addEventListener(end, () => told.writing.delete(begun));
    }
    return begun;
  };

  // What sounds is made a hundred times a second, though nobody hears it; a player of music asks less often.
  const { AudioContext } = window;
  window.AudioContext = class extends AudioContext {
    constructor() {
      super({ latencyHint: "playback" });
    }
  };

  // The browser stamps fixes by the machine's clock; the page has one of its own.
  const { watchPosition, clearWatch } = Geolocation.prototype;
  Geolocation.prototype.watchPosition = function (this: Geolocation, done, ...more) {
    const stamped: PositionCallback = ({ coords }) => {
      done({ coords, timestamp: Date.now() } as GeolocationPosition);
      told.fixes++;
    };
    const id = watchPosition.call(this, stamped, ...more);
    told.following.add(id);
    return id;
  };
  Geolocation.prototype.clearWatch = function (this: Geolocation, id) {
    told.following.delete(id);
    clearWatch.call(this, id);
  };
}
