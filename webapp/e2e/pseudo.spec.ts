/** A third language, made of accents: that of a build of its own, see src/base/text/spoken/en-XA.ts. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { type BrowserContext, test as base, expect, type Page } from "@playwright/test";
import { calm } from "./notes";
import { pass, prepare, quiet, reload } from "./phone";

const types: { [extension: string]: string } = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
};

/** Serves the files of a build, and has no boat. */
async function serve(folder: string): Promise<Server> {
  const server = createServer(({ url = "/" }, response) => {
    const path = new URL(url, "http://localhost").pathname;
    try {
      const body = readFileSync(join(folder, path === "/" ? "index.html" : path));
      response.writeHead(200, {
        "content-type": types[extname(path) || ".html"] ?? "application/octet-stream",
      });
      response.end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  return server;
}

const test = base.extend<object, { built: string }>({
  built: [
    // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the fixtures it needs from this pattern
    async ({}, use) => {
      const folder = mkdtempSync(join(tmpdir(), "wirewake-pseudo-"));
      execFileSync("npx", ["vite", "build", "--mode", "pseudo"], {
        cwd: join(import.meta.dirname, ".."),
        env: { ...process.env, WIREWAKE_OUT: folder },
        stdio: "pipe",
      });
      const server = await serve(folder);
      await use(`http://localhost:${(server.address() as AddressInfo).port}`);
      server.closeAllConnections();
      server.close();
      rmSync(folder, { recursive: true });
    },
    { scope: "worker" },
  ],
  baseURL: ({ built }, use) => use(built),
  context: async ({ context }, use) => use(await prepare(context)),
});

test.describe.configure({ mode: "serial" });

/** How many files with words of each language are kept for use without signal. */
const wordsKept = (page: Page) =>
  page.evaluate(async () => {
    const all = await Promise.all(
      (await caches.keys()).map(async (name) => (await caches.open(name)).keys()),
    );
    const found = all.flat().map(({ url }) => /\/words\/([^/]+)\//.exec(url)?.[1]);
    return found.filter((language) => language !== undefined);
  });

const languageOf = (page: Page, language: string) =>
  expect(page.locator("html")).toHaveAttribute("lang", language);

test("a third language is kept by the phone that speaks it, and its own is let go of by nobody else", async ({
  page,
  context,
}) => {
  await page.goto("/#/locker");
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  expect(await wordsKept(page)).toEqual([]);
  await calm(page);
  await page.getByRole("radio", { name: "Pseudo" }).check();
  await languageOf(page, "en-XA");
  await expect.poll(() => wordsKept(page)).toEqual(["en-XA"]);
  await context.setOffline(true);
  await reload(page);
  await languageOf(page, "en-XA");
  await expect(page.getByRole("heading", { name: "[Ļöçķéŕ··]" })).toBeVisible();
});

/** Pages that have an address of their own. */
const pages = [
  ...readFileSync(join(import.meta.dirname, "../src/app/routes.ts"), "utf8").matchAll(/path: "([^":]+)"/g),
].map(([, path]) => path as string);

async function speaking(context: BrowserContext): Promise<Page> {
  await context.addInitScript(() => localStorage.setItem("language", "en-XA"));
  return context.newPage();
}

/** A language is called by its own name in every language. */
const languages = ["English", "Español", "Pseudo"];

/** What can be read or heard on this page that has plain letters. */
const plainWords = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const said: string[] = [];
    for (const element of document.body.querySelectorAll<HTMLElement>("*")) {
      if (!element.checkVisibility() || element.closest("[lang=en]")) continue;
      for (const child of element.childNodes)
        if (child.nodeType === Node.TEXT_NODE) said.push(child.textContent ?? "");
      for (const name of ["aria-label", "title", "placeholder", "alt"])
        said.push(element.getAttribute(name) ?? "");
    }
    return [...new Set(said.filter((text) => /[a-z]{2,}/i.test(text)))];
  });

test("every word on every page is a text of the app's", async ({ context }) => {
  const page = await speaking(context);
  expect(pages.length).toBeGreaterThan(30);
  const found: { [path: string]: string[] } = {};
  for (const path of ["lines", "pace", "notes", "fish", "crew", ...pages]) {
    await page.goto(`/#/${path}`);
    await languageOf(page, "en-XA");
    await quiet(page);
    await pass(page, 1000);
    await expect(page.locator("main")).toBeVisible();
    const words = (await plainWords(page)).filter((word) => !languages.includes(word));
    if (words.length > 0) found[path] = words;
  }
  expect(found).toEqual({});
});
