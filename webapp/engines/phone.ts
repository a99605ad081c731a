/** A phone with another engine: what a person does with it, and what is seen. All waiting is for something to be so. */
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, type TestInfo } from "@playwright/test";
import type { Server } from "../e2e/server";
import { type Driver, type Handle, idOf } from "./driver";

export const upright = { width: 360, height: 740 };

/** Starts an engine with the profile in this folder; root is the certificate of the authority it is to trust. */
export type Engine = (profile: string, root: string) => Promise<Driver>;

const lastWord = "a fault to be heard";

const soon = { intervals: [0, 20, 50, 100], timeout: 30_000 };

export class Phone {
  private driver: Driver | undefined;
  private readonly profile = mkdtempSync(join(tmpdir(), "wirewake-engine-"));
  /** What the console told of as faults, known once the engine has ended. */
  readonly faults: string[] = [];

  private readonly root = join(this.profile, "root.crt");

  constructor(
    private readonly engine: Engine,
    private readonly server: Server,
  ) {}

  /** Starts the engine, with the profile that it had before. */
  async start(): Promise<void> {
    if (!existsSync(this.root)) {
      const answer = await fetch(`${this.server.url}/boat.crt`);
      writeFileSync(this.root, Buffer.from(await answer.arrayBuffer()));
    }
    this.driver = await this.engine(this.profile, this.root);
    await this.resize(upright);
  }

  /** Ends the engine. A fault made on purpose shows that its console is heard to the last. */
  async quit(): Promise<void> {
    const { driver } = this;
    if (!driver) return;
    await this.run((word) => reportError(new Error(word)), lastWord).catch(() => undefined);
    this.driver = undefined;
    const told = await driver.quit();
    if (!told.some((fault) => fault.includes(lastWord))) throw new Error("The console is not heard.");
    this.faults.push(...told.filter((fault) => !fault.includes(lastWord)));
  }

  async throwAway(): Promise<void> {
    await this.quit();
    rmSync(this.profile, { recursive: true, force: true });
  }

  /** Leaves with a test that failed what was on the screen. */
  async show(info: TestInfo): Promise<void> {
    if (!this.driver) return;
    const picture = (await this.send("picture", { full: false })) as string;
    await info.attach("screen", { body: Buffer.from(picture, "base64"), contentType: "image/png" });
    await info.attach("words", { body: await this.run(() => document.body.innerText) });
  }

  private send(...what: Parameters<Driver["send"]>): Promise<unknown> {
    if (!this.driver) throw new Error("The engine does not run.");
    return this.driver.send(...what);
  }

  /** Goes to an address of the server, over https. */
  go = (path: string) => this.send("go", { url: `https://localhost:${this.server.port}/${path}` });
  resize = (size: { width: number; height: number }) => this.send("resize", size);

  /** As the person's own reloading does it: that of Firefox's driver goes round the service worker. */
  async reload(): Promise<void> {
    await this.run(() => {
      Object.assign(window, { isOld: true });
      location.reload();
    });
    await this.until(() => !("isOld" in window) && document.readyState === "complete");
  }

  /** Runs a function in the page, which knows nothing of what is around it here. */
  async run<T, A extends unknown[]>(what: (...args: A) => T, ...args: A): Promise<T> {
    return (await this.send("run", { script: `return (${what})(...arguments)`, args })) as T;
  }

  /** What the function answers as soon as that is anything but false or nothing. */
  async until<T, A extends unknown[]>(what: (...args: A) => T, ...args: A): Promise<NonNullable<T>> {
    let got: T | undefined;
    await expect(async () => {
      got = await this.run(what, ...args);
      expect(got, String(what)).toBeTruthy();
    }).toPass(soon);
    return got as NonNullable<T>;
  }

  sees = (words: string | RegExp) =>
    this.until(
      (source) => new RegExp(source).test(document.body.innerText.replace(/\s+/g, " ")),
      source(words),
    );

  /** Taps what carries these words, once more if the app takes it for the echo of the tap before. */
  async tap(words: string | RegExp, selector = "a, button, label"): Promise<void> {
    await expect(async () => {
      const control = await this.until(find, selector, source(words));
      await this.run(watchTap);
      await this.send("tap", {}, idOf(control as unknown as Handle));
      expect(await this.until(() => (window as unknown as Watched).tap)).toBe("taken");
    }).toPass(soon);
  }

  /** Puts words into the field with this label, in place of what is there. */
  async fill(label: string | RegExp, words: string): Promise<void> {
    const field = await this.until(find, "input, textarea", source(label));
    await this.run((field) => (field as unknown as HTMLInputElement).select(), field);
    await this.send("type", { text: words }, idOf(field as unknown as Handle));
  }

  /** Gives a file to the page's field for one. */
  async attach(path: string): Promise<void> {
    const field = await this.until(() => document.querySelector('input[type="file"]'));
    await this.send("type", { text: path }, idOf(field as unknown as Handle));
  }
}

const source = (words: string | RegExp): string =>
  words instanceof RegExp ? words.source : words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** The first of these that is seen and has these words as its text or its label. */
function find(selector: string, words: string): Element | undefined {
  const wanted = new RegExp(words);
  return [...document.querySelectorAll(selector)].find((one) => {
    const labels = [...((one as HTMLInputElement).labels ?? [])].map((label) => label.textContent);
    const names = [one.ariaLabel, one.textContent, ...labels];
    return (
      one.checkVisibility() && names.some((name) => name && wanted.test(name.trim().replace(/\s+/g, " ")))
    );
  });
}

interface Watched {
  tap: "taken" | "refused" | undefined;
}

/** Notes what becomes of the next tap. */
function watchTap(): void {
  const told = window as unknown as Watched;
  told.tap = undefined;
  addEventListener(
    "click",
    (event) =>
      setTimeout(() => {
        const followed = event.target instanceof Element && event.target.closest("a");
        told.tap = event.defaultPrevented && !followed ? "refused" : "taken";
      }),
    { capture: true, once: true },
  );
}
