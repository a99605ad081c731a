/** A new version on the server: it comes aboard whole, and waits for a tap. */
import { createHash } from "node:crypto";
import {
  request as ask,
  createServer,
  type IncomingMessage,
  type Server,
  type ServerResponse,
} from "node:http";
import { brotliDecompressSync } from "node:zlib";
import { answered, test as base, expect, follow, type Page } from "./app";
import { calm, closeTrip, comeAboard, row, startTrip, writeNote } from "./notes";
import { pass, reload } from "./phone";

/** Hands a request on as it came, and the answer as it comes. */
function handOn(request: IncomingMessage, response: ServerResponse, server: string): void {
  const { method, headers } = request;
  const on = ask(server + request.url, { method, headers }, (answer) => {
    response.writeHead(answer.statusCode ?? 502, answer.headers);
    answer.pipe(response);
  });
  request.pipe(on);
}

/** Stands between phone and server and changes one file of the app, as a new build would. */
class NewBuild {
  edition = 1;
  /** A file that fails to come. */
  missing = "";
  private constructor(
    private readonly proxy: Server,
    readonly url: string,
  ) {}

  static async before(server: string): Promise<NewBuild> {
    const proxy = createServer();
    await new Promise<void>((done) => proxy.listen(0, "127.0.0.1", done));
    const build = new NewBuild(proxy, `http://localhost:${(proxy.address() as { port: number }).port}`);
    const plain = await (await fetch(`${server}/palette.js`)).text();
    const hash = (text: string) => `sha256-${createHash("sha256").update(text).digest("base64")}`;
    proxy.on("request", async (request, response) => {
      const path = request.url === "/" ? "/index.html" : (request.url ?? "");
      if (path.startsWith("/api/")) return handOn(request, response, server);
      const from = await fetch(server + path, { headers: { "accept-encoding": "identity" } });
      let body = Buffer.from(await from.arrayBuffer());
      if (from.headers.get("content-encoding") === "br") body = brotliDecompressSync(body);
      const edited = `${plain}\n// edition ${build.edition}`;
      if (path === "/palette.js") body = Buffer.from(edited);
      if (path === "/sw.js") body = Buffer.from(body.toString().replace(hash(plain), hash(edited)));
      response.writeHead(path === build.missing ? 500 : from.status, {
        "content-type": from.headers.get("content-type") ?? "",
        "content-security-policy": from.headers.get("content-security-policy") ?? "",
        "cache-control": "no-cache",
      });
      response.end(body);
    });
    return build;
  }

  close() {
    this.proxy.closeAllConnections();
    this.proxy.close();
  }
}

const test = base.extend<{ build: NewBuild }>({
  build: async ({ server }, use) => {
    const build = await NewBuild.before(server.url);
    await use(build);
    build.close();
  },
});

const editionInUse = (page: Page) =>
  page.evaluate(async () => /edition (\d)/.exec(await (await fetch("/palette.js")).text())?.[1]);

const loadOnce = async (page: Page, url: string) => {
  await page.goto(`${url}/#/lines`);
  await answered(page);
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
};

const lookForUpdate = (page: Page) =>
  page.evaluate(async () =>
    (await navigator.serviceWorker.getRegistration())?.update().catch(() => undefined),
  );

/** Until all of the newer version is on the phone: what the loss of signal cuts short is not offered at sea. */
async function newerAboard(page: Page, url: string): Promise<void> {
  await page.goto(`${url}/#/locker/about`);
  await expect(page.getByText("A newer version is on this phone")).toBeVisible();
}

/** Told in one line; a tap shows it whole. */
const told = (page: Page) => page.getByRole("button", { name: "A new version is here" });
const offer = (page: Page) => page.getByRole("button", { name: "Load it" });

test("a new version on the server: it comes aboard whole, and waits for a tap @keeps", async ({
  page,
  context,
  build,
}) => {
  await loadOnce(page, build.url);

  await test.step("one of which one file does not come is not offered, and harms nothing", async () => {
    build.edition = 2;
    build.missing = "/calc.wasm";
    await lookForUpdate(page);
    await page.waitForFunction(async () => !(await navigator.serviceWorker.getRegistration())?.installing);
    await expect(told(page)).toHaveCount(0);
    await reload(page);
    await answered(page);
    expect(await editionInUse(page)).toBe("1");
    await follow(page, "Locker");
    await follow(page, "Ready for sea");
    await expect(page.locator(".check", { hasText: "All parts aboard" })).toHaveClass(/good/);
  });

  let next = page;
  await test.step("a new version waits for a tap, however often the app is closed and opened", async () => {
    await page.goto(`${build.url}/#/lines`);
    build.missing = "";
    await lookForUpdate(page);
    await expect(told(page)).toBeVisible();
    expect(await editionInUse(page)).toBe("1");

    // Closing every page lets the browser start the new worker; it must go on serving the old version.
    await page.close();
    next = await context.newPage();
    await next.goto(`${build.url}/#/lines`);
    await answered(next);
    await expect(told(next)).toBeVisible();
    expect(await editionInUse(next)).toBe("1");

    // Not while a form is open.
    await next.goto(`${build.url}/#/lines/wanted`);
    await expect(told(next)).toHaveCount(0);
    await next.goto(`${build.url}/#/lines`);

    // Not while a trip runs.
    await next.goto(`${build.url}/#/notes`);
    await calm(next);
    await next.getByRole("button", { name: "Start a trip" }).click();
    await next.goto(`${build.url}/#/lines`);
    await expect(told(next)).toHaveCount(0);
    await next.goto(`${build.url}/#/notes`);
    await calm(next);
    await next.locator("a.notes-trip").click();
    await calm(next);
    await closeTrip(next);
    await next.goto(`${build.url}/#/lines`);
    await expect(told(next)).toBeVisible();

    await pass(next, 300);
    await told(next).click();
    await offer(next).click();
    await expect.poll(() => editionInUse(next).catch(() => "loading")).toBe("2");
    await answered(next);
    await expect(told(next)).toHaveCount(0);
  });

  await test.step("by hand it is looked for and used at once, also while a trip runs", async () => {
    await startTrip(next);
    await next.goto(`${build.url}/#/locker/about`);
    const look = next.getByRole("button", { name: "Look for a new version" });
    await calm(next);
    await look.click();
    await expect(next.getByText("This is the newest that the boat’s server has.")).toBeVisible();
    build.missing = "/sw.js";
    await calm(next);
    await look.click();
    await expect(next.getByText("The boat’s server is not in reach.")).toBeVisible();
    build.missing = "";
    build.edition = 3;
    await calm(next);
    await look.click();
    await expect(next.getByText("A newer version is on this phone")).toBeVisible();
    expect(await editionInUse(next)).toBe("2");
    await calm(next);
    await next.getByRole("button", { name: "Use it now" }).click();
    await expect.poll(() => editionInUse(next).catch(() => "loading")).toBe("3");
  });
});

test("a phone of the old version at sea: its notes outlive the new one, and the new server takes them @keeps", async ({
  page,
  context,
  build,
  server,
}) => {
  await loadOnce(page, build.url);
  await comeAboard(page, { ...server, url: build.url }, "Ann", server.invite("skipper"));
  await context.setOffline(true);
  await startTrip(page);
  await writeNote(page, "Noted with the old version.");
  await expect(page.locator(".sending")).toContainText("2");

  // Back at the marina: the server has a new version, the trip runs on.
  build.edition = 2;
  await context.setOffline(false);
  await lookForUpdate(page);
  await expect(page.locator(".sending")).toContainText("All sent");
  await newerAboard(page, build.url);
  await expect(told(page)).toHaveCount(0);
  await page.goto(`${build.url}/#/notes`);
  expect(await editionInUse(page)).toBe("1");

  await context.setOffline(true);
  await writeNote(page, "Not sent before the new version.");
  await page.locator("a.notes-trip").click();
  await calm(page);
  await closeTrip(page);
  await page.goto(`${build.url}/#/lines`);
  await calm(page);
  await told(page).click();
  await offer(page).click();
  await expect.poll(() => editionInUse(page).catch(() => "loading")).toBe("2");
  await page.goto(`${build.url}/#/notes/past`);
  await page.locator(".links a").first().click();
  await expect(row(page, "Noted with the old version.")).toBeVisible();
  await expect(row(page, "Not sent before the new version.")).toBeVisible();
  await context.setOffline(false);
  await page.goto(`${build.url}/#/notes`);
  await expect(page.locator(".sending")).toContainText("All sent");
});
