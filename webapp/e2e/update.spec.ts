/** A new version on the server: it comes aboard whole, and waits for a tap. */
import { createHash } from "node:crypto";
import { createServer, type Server } from "node:http";
import { brotliDecompressSync } from "node:zlib";
import { answered, expect, follow, type Page, test } from "./app";
import { calm } from "./notes";

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

const offer = (page: Page) => page.getByRole("button", { name: "Load it" });

test("a new version waits for a tap, however often the app is closed and opened", async ({
  page,
  context,
  server,
}) => {
  const build = await NewBuild.before(server.url);
  await loadOnce(page, build.url);
  expect(await editionInUse(page)).toBe("1");
  build.edition = 2;
  await lookForUpdate(page);
  await expect(offer(page)).toBeVisible();
  expect(await editionInUse(page)).toBe("1");

  // Closing every page lets the browser start the new worker; it must go on serving the old version.
  await page.close();
  const next = await context.newPage();
  await next.goto(`${build.url}/#/lines`);
  await answered(next);
  await expect(offer(next)).toBeVisible();
  expect(await editionInUse(next)).toBe("1");

  // Not while a form is open.
  await next.goto(`${build.url}/#/lines/wanted`);
  await expect(offer(next)).toHaveCount(0);
  await next.goto(`${build.url}/#/lines`);

  // Not while a trip runs.
  await next.goto(`${build.url}/#/notes`);
  await calm(next);
  await next.getByRole("button", { name: "Start a trip" }).click();
  await next.goto(`${build.url}/#/lines`);
  await expect(offer(next)).toHaveCount(0);
  await next.goto(`${build.url}/#/notes`);
  await calm(next);
  await next.locator("a.notes-trip").click();
  await calm(next);
  await next.getByRole("button", { name: "Close the trip" }).click();
  await next.goto(`${build.url}/#/lines`);
  await expect(offer(next)).toBeVisible();

  await next.waitForTimeout(300);
  await offer(next).click();
  await expect.poll(() => editionInUse(next).catch(() => "loading")).toBe("2");
  await answered(next);
  await expect(offer(next)).toHaveCount(0);
  build.close();
});

test("a new version of which one file does not come is not offered, and harms nothing", async ({
  page,
  server,
}) => {
  const build = await NewBuild.before(server.url);
  await loadOnce(page, build.url);
  build.edition = 2;
  build.missing = "/calc.wasm";
  await lookForUpdate(page);
  await page.waitForTimeout(1500);
  await expect(offer(page)).toHaveCount(0);
  await page.reload();
  await answered(page);
  expect(await editionInUse(page)).toBe("1");
  await follow(page, "Locker");
  await follow(page, "Ready for sea");
  await expect(page.locator(".check", { hasText: "All parts aboard" })).toHaveClass(/good/);
  build.close();
});
