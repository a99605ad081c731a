/** One code for a phone that knows nothing of the boat: scanned, led through, asked, aboard, ready, briefed. */
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { type Browser, expect, type Locator, type Page, test } from "@playwright/test";
import { boatName, NetPhone } from "./boatnet";
import { calm, comeAboard, startTrip } from "./notes";
import { pass, phone, reload } from "./phone";
import { type Server, startServer } from "./server";

let server: Server;
test.beforeEach(async () => {
  server = await startServer("--address", `https://${boatName}:PORT`);
});
test.afterEach(async ({ browser }) => {
  await Promise.all(browser.contexts().map((one) => one.close()));
  await server.stop();
});

const secure = () => `https://localhost:${server.port}`;

/** A phone that trusts the boat already, over real TLS. */
const trusting = (browser: Browser) => phone(browser, { ignoreHTTPSErrors: true, baseURL: secure() });

async function skippers(browser: Browser): Promise<Page> {
  const page = await trusting(browser);
  await comeAboard(page, { ...server, url: secure() }, "Ann", server.invite("skipper"));
  return page;
}

/** Asks, and gives the word that the phone shows. */
async function asks(page: Page, name: string): Promise<string> {
  await page.goto("/#/enrol");
  await page.getByLabel("A name for this phone").fill(name);
  await calm(page);
  await page.getByRole("button", { name: "Ask the skipper" }).click();
  await expect(page.getByText("Your word is")).toBeVisible();
  return page.locator(".code").innerText();
}

/** One who asks, on the skipper's screen. */
const asker = (page: Page, word: string): Locator => page.locator(".ask").filter({ hasText: word });

/** Lets the phones look again until something is so. */
async function until(pages: Page[], so: () => Promise<void>): Promise<void> {
  await expect(async () => {
    for (const page of pages) await pass(page, 3000);
    await so();
  }).toPass({ intervals: [100] });
}

const ready = (page: Page) => page.getByRole("heading", { name: "Ready for sea" });

test("a new phone scans once, and is aboard, ready and briefed within eight taps", async ({ browser }) => {
  test.skip(process.platform === "darwin", "a browser there asks the system's own store of certificates");
  const skipper = await skippers(browser);
  await startTrip(skipper);
  await skipper.goto("/#/enrol/invite");
  const code = skipper.getByRole("img", { name: "QR code for http" });
  await expect.poll(() => code.evaluate((img: HTMLImageElement) => img.naturalWidth)).toBeGreaterThan(0);
  const wayIn = `http://${boatName}:${server.port}`;
  // By red light too.
  for (const palette of ["night", "day"]) {
    await skipper.evaluate((palette) => {
      document.documentElement.dataset.palette = palette;
    }, palette);
    const picture = test.info().outputPath(`code-${palette}.png`);
    writeFileSync(picture, await code.screenshot({ scale: "device" }));
    const scanned = execFileSync("zbarimg", ["--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", picture], {
      encoding: "utf8",
    }).trim();
    expect(scanned, palette).toBe(wayIn);
  }

  const guests = new NetPhone();
  await guests.trust(server.port);
  const context = await guests.open();
  const guest = context.pages()[0] ?? (await context.newPage());
  // What anybody on the network can read of it: all that goes over plain http.
  const read: string[] = [];
  const secrets: string[] = [];
  guest.on("request", (request) => {
    if (request.url().startsWith("http:"))
      read.push(request.url(), request.postData() ?? "", JSON.stringify(request.headers()));
  });
  guest.on("response", async (response) => {
    if (response.url().startsWith("http:")) read.push(await response.text().catch(() => ""));
    else if (/\/api\/asks$/.test(response.url())) secrets.push((await response.json()).ask);
    else if (/\/api\/enrol$/.test(response.url()))
      secrets.push(/=([\w-]{43});/.exec((await response.allHeaders())["set-cookie"] ?? "")?.[1] ?? "");
  });
  let taps = 0;
  const tap = async (where: Locator) => {
    await calm(guest);
    await where.click();
    taps++;
  };

  // The certificate is not installed yet, as far as the page can see.
  const trusted = `https://${boatName}:${server.port}/api/trusted`;
  await guest.route(trusted, (route) => route.abort());
  await guest.goto(wayIn);
  await guest.getByRole("radio", { name: "Android" }).check();
  const steps = await guest.locator(".door-steps > li").allInnerTexts();
  expect(steps.map((step) => /(\d+) steps after this/.exec(step)?.[1])).toEqual(["7", "6", "5", "4", "3"]);
  const [download] = await Promise.all([
    guest.waitForEvent("download"),
    tap(guest.getByRole("link", { name: "Get the certificate" })),
  ]);
  await download.path();
  // In the phone's settings it is installed; back in the browser it goes on by itself.
  await guest.unroute(trusted);
  await guest.evaluate(() => dispatchEvent(new Event("focus")));
  await guest.waitForURL(`https://${boatName}:${server.port}/#/enrol`);
  await expect(guest.getByText("2 steps after this.")).toBeVisible();
  await tap(guest.getByLabel("A name for this phone"));
  await guest.keyboard.type("Gus");
  await tap(guest.getByRole("button", { name: "Ask the skipper" }));
  await expect(guest.getByText("Your word is")).toBeVisible();
  const word = await guest.locator(".code").innerText();

  await until([skipper], () => expect(asker(skipper, word)).toContainText("“Gus” asks to come aboard"));
  await calm(skipper);
  await asker(skipper, word).getByRole("button", { name: "Yes, aboard" }).click();
  await expect(skipper.getByText("“Gus” may come aboard: guest.")).toBeVisible();
  await until([guest], () => expect(ready(guest)).toBeVisible({ timeout: 500 }));
  await expect(guest.getByText("One step after this.")).toBeVisible();
  await tap(guest.getByRole("link", { name: "On: the briefing" }));
  await expect(guest.getByText(/Briefing, page 1/)).toBeVisible();
  // One more puts it on the home screen, which the browser asks about itself.
  expect(taps + 1).toBeLessThanOrEqual(8);

  await guest.goto(`https://${boatName}:${server.port}/#/enrol`);
  await expect(guest.getByText("This phone is “Gus”, guest.")).toBeVisible();
  expect(secrets.filter((secret) => secret.length > 20).length).toBeGreaterThanOrEqual(2);
  const overheard = read.join("\n");
  expect(overheard.includes("fingerprint")).toBe(true);
  const leaked = [...secrets, word].filter((secret) => secret !== "" && overheard.includes(secret));
  expect(leaked).toEqual([]);

  // Another page in the place of the door, as whoever is on the way can make it, has nothing of the phone that is aboard.
  const other = await context.newPage();
  await other.route(`http://${boatName}:${server.port}/`, (route) =>
    route.fulfill({ contentType: "text/html", body: "<p>not the boat’s</p>" }),
  );
  await other.goto(`http://${boatName}:${server.port}/`);
  const got = await other.evaluate(async (app) => {
    const asked = async (path: string, init: RequestInit) =>
      fetch(app + path, { credentials: "include", ...init }).then(
        (answer) => answer.text(),
        () => "refused",
      );
    const body = JSON.stringify({ name: "Gus", role: "mate", hours: 24, uses: 1 });
    return [
      await asked("/api/me", {}),
      await asked("/api/asks", { method: "POST", body, headers: { "Content-Type": "application/json" } }),
      await asked("/api/invitations", { method: "POST", body, mode: "no-cors" }),
      document.cookie,
    ];
  }, `https://${boatName}:${server.port}`);
  expect(got).toEqual(["refused", "refused", "refused", ""]);
  await until([skipper], () => expect(skipper.locator(".ask-no")).toHaveCount(0, { timeout: 500 }));
  await guests.close();
});

test("the first aboard is let in by the terminal, and of two who ask then each has an answer of its own", async ({
  browser,
}) => {
  const skipper = await trusting(browser);
  await test.step("with nobody aboard the phone says who can say yes: the terminal does", async () => {
    const word = await asks(skipper, "Ann");
    await expect(skipper.getByText(`wirewake welcome ${word} --role skipper`)).toBeVisible();
    server.welcome(word, "skipper");
    await until([skipper], () => expect(ready(skipper)).toBeVisible({ timeout: 500 }));
    await skipper.goto("/#/enrol");
    await expect(skipper.getByText("This phone is “Ann”, skipper.")).toBeVisible();
  });
  await test.step("two ask at once under one name: the word says which, and each has its own answer", async () => {
    const [gus, eve] = [await trusting(browser), await trusting(browser)];
    const word = await asks(gus, "Gus");
    const other = await asks(eve, "Gus");
    expect(other).not.toBe(word);

    // Wherever the skipper is.
    await skipper.goto("/#/lines");
    await until([skipper], () =>
      expect(skipper.locator(".notices")).toContainText("2 phones ask to come aboard.", { timeout: 500 }),
    );
    await calm(skipper);
    await skipper.getByRole("button", { name: "Look" }).click();
    await expect(asker(skipper, word)).toBeVisible();
    await expect(asker(skipper, other)).toBeVisible();
    // There is no trip for a guest to come to: it is said, and as mate it goes.
    await expect(asker(skipper, word)).toContainText("A guest is invited to a trip.");
    await asker(skipper, word).getByRole("radio", { name: "mate" }).check();
    await calm(skipper);
    await asker(skipper, word).getByRole("button", { name: "Yes, aboard" }).click();
    await until([gus, eve], () => expect(ready(gus)).toBeVisible({ timeout: 500 }));
    await expect(eve.locator(".code")).toHaveText(other);

    // The other is refused, and blocked; an invitation goes all the same.
    await calm(skipper);
    await asker(skipper, other).getByRole("button", { name: "No, and block" }).click();
    await expect(asker(skipper, other)).toHaveCount(0);
    await until([eve], () =>
      expect(eve.getByText("The skipper’s phone said no.")).toBeVisible({ timeout: 500 }),
    );
    await expect(skipper.getByText("Phones at one network address may not ask.")).toBeVisible();
    await calm(eve);
    await eve.getByRole("button", { name: "Another way aboard" }).click();
    await eve.getByLabel("A name for this phone").fill("Eve");
    await calm(eve);
    await eve.getByRole("button", { name: "Ask the skipper" }).click();
    await expect(eve.getByText("The boat does not take this phone's request.")).toBeVisible();
    await eve.goto(`/${server.invite("mate")}`);
    await eve.getByLabel("A name for this phone").fill("Eve");
    await calm(eve);
    await eve.getByRole("button", { name: "Come aboard" }).click();
    await expect(eve.getByText("This phone is “Eve”")).toBeVisible();
  });
});

test("a request outlives the server and a reload, waits for a skipper out of reach, and lapses", async ({
  browser,
}) => {
  const skipper = await skippers(browser);
  await startTrip(skipper);
  await skipper.context().setOffline(true);
  const gus = await trusting(browser);
  const word = await asks(gus, "Gus");
  await skipper.goto("/#/enrol/invite").catch(() => undefined);
  await until([gus, skipper], () => expect(gus.locator(".code")).toHaveText(word));
  await expect(asker(skipper, word)).toHaveCount(0);

  await server.restart();
  await reload(gus);
  await expect(gus.locator(".code")).toHaveText(word);
  await skipper.context().setOffline(false);
  await until([skipper], () => expect(asker(skipper, word)).toBeVisible({ timeout: 500 }));
  // The phone is away from the server when the yes comes.
  await gus.context().setOffline(true);
  await until([gus], () => expect(gus.getByText("is not in reach")).toBeVisible({ timeout: 500 }));
  await calm(skipper);
  await asker(skipper, word).getByRole("button", { name: "Yes, aboard" }).click();
  await expect(skipper.getByText("“Gus” may come aboard: guest.")).toBeVisible();
  await server.restart();
  await gus.context().setOffline(false);
  await until([gus], () => expect(ready(gus)).toBeVisible({ timeout: 500 }));
  await expect(async () => {
    await pass(skipper, 3000);
    await expect(skipper.getByText("“Gus” may come aboard")).toHaveCount(0, { timeout: 500 });
  }).toPass();

  // Nobody answers: after ten minutes the server does not know of it any more, and nobody can say yes to it.
  const late = await trusting(browser);
  const lapses = await asks(late, "Leo");
  await until([skipper], () => expect(asker(skipper, lapses)).toBeVisible({ timeout: 500 }));
  server.olderAsks(8);
  await pass(late, 3000);
  await expect(late.locator(".code")).toHaveText(lapses);
  // By the phone's clock first: where the server forgets it sooner, the phone takes it for pushed out, and asks again.
  await late.clock.fastForward(10 * 60_000);
  server.olderAsks(2);
  await until([late], () => expect(late.getByText("Nobody answered in time.")).toBeVisible({ timeout: 500 }));
  await until([skipper], () => expect(asker(skipper, lapses)).toHaveCount(0, { timeout: 500 }));
  await calm(late);
  await late.getByRole("button", { name: "Ask again" }).click();
  await expect(late.getByText("Your word is")).toBeVisible();
  await calm(late);
  await late.getByRole("button", { name: "Do not wait" }).click();
  await expect(late.getByRole("button", { name: "Ask the skipper" })).toBeVisible();
});

test("of a flood of strangers the skipper sees six at a time, says no to all at once, and finds one by its word", async ({
  browser,
}) => {
  const skipper = await skippers(browser);
  const strangers = (from: number, to: number) =>
    Array.from({ length: to - from + 1 }, (_, i) => ({
      ...{
        device: `01997c3e-9b2a-7c41-8f0e-3d5a1b6c7d${from + i}`,
        name: `Eve ${from + i}`,
        word: `word${from + i}`,
      },
      ...{ asked: Date.now(), ends: Date.now() + 600_000 },
    }));
  let asking = strangers(10, 41);
  await skipper.goto("/#/enrol/invite");
  await skipper.route(/\/api\/asks(\?.*)?$/, (route) => {
    const word = new URL(route.request().url()).searchParams.get("word");
    const asks = word ? asking.filter((one) => one.word === word) : asking.slice(0, 32);
    return route.fulfill({ json: { asks, more: word ? 0 : asking.length - asks.length, blocked: 0 } });
  });
  await skipper.route("**/api/asks/*/decline", (route) => {
    const one = asking.find(({ device }) => route.request().url().includes(device));
    asking = asking.filter((other) => other !== one);
    return route.fulfill({ json: one });
  });
  await test.step("of a flood of strangers the skipper sees six at a time, and says no to all at once", async () => {
    const shown = skipper.locator(".ask .code");
    await until([skipper], () => expect(shown).toHaveCount(6, { timeout: 500 }));

    // Everywhere else it is told at the foot, but not in an emergency.
    const told = skipper.getByText("32 phones ask to come aboard.");
    await skipper.goto("/#/lines");
    await expect(told).toBeVisible();
    await skipper.goto("/#/help/fire");
    await expect(skipper.getByRole("heading", { name: "Fire" })).toBeVisible();
    await expect(told).toHaveCount(0);
    await skipper.locator(".overboard-button").click();
    await calm(skipper);
    await skipper.getByRole("button", { name: "Yes: overboard" }).click();
    await expect(skipper.locator(".overboard-since")).toBeVisible();
    await expect(told).toHaveCount(0);
    await skipper.goto("/#/lines");
    await expect(skipper.locator(".overboard-alarm")).toBeVisible();
    await expect(told).toHaveCount(0);
    await skipper.goto("/#/overboard");
    await calm(skipper);
    await skipper.getByRole("button", { name: "It is over" }).click();
    await calm(skipper);
    await skipper.getByRole("button", { name: "Back aboard" }).click();
    // The way back of what was just said stands there all the same.
    await expect(skipper.locator(".notices").getByRole("button", { name: "Undo" })).toBeVisible();
    await expect(told).toHaveCount(0);
    await skipper.goto("/#/lines");
    await expect(told).toBeVisible();
    await skipper.goto("/#/enrol/invite");
    await expect(shown).toHaveCount(6);

    const more = skipper.getByRole("button", { name: "26 more" });
    await more.scrollIntoViewIfNeeded();
    await calm(skipper);
    await more.click();
    await expect(shown).toHaveCount(12);
    await calm(skipper);
    await skipper.getByRole("button", { name: "No to all 32" }).click();
    await expect(shown).toHaveCount(0);
    expect(asking).toEqual([]);
  });
  await test.step("of more than are listed, one is found by its word whether it is listed, shown or neither", async () => {
    asking = strangers(50, 89);
    await skipper.goto("/#/lines");
    await skipper.goto("/#/enrol/invite");
    await until([skipper], () => expect(skipper.locator(".ask .code")).toHaveCount(6, { timeout: 500 }));
    const byWord = skipper.locator(".ask", { has: skipper.getByText("more wait, too many to show") }).last();
    const look = async (word: string) => {
      await byWord.getByLabel("Word").fill(word);
      await calm(skipper);
      await byWord.getByRole("button", { name: "Look" }).click();
    };
    for (const number of [50, 60, 89]) {
      await look(`word${number}`);
      await expect(byWord.getByRole("heading", { name: `“Eve ${number}” asks` })).toBeVisible();
    }
    await look("nobody's");
    await expect(byWord.getByText("No phone asks under this word.")).toBeVisible();

    // Answered, it is gone from there, and nothing is said to be wrong with its word.
    await look("word60");
    await calm(skipper);
    await byWord.getByRole("button", { name: "No", exact: true }).click();
    await expect(byWord.getByRole("heading")).toHaveCount(0);
    await expect(byWord.getByText("No phone asks under this word.")).toHaveCount(0);
    await expect(skipper.getByText("7 more wait")).toBeVisible();
  });
});
