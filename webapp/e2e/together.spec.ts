/** Several phones and the boat's server: apart at sea, together at the marina, and nothing lost on the way. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium } from "@playwright/test";
import { asked, chromiumPath } from "../tools/chromium.mjs";
import { expect, type Page, test } from "./app";
import { calm, closeTrip, comeAboard, exchangeNow, row, startTrip, writeNote } from "./notes";
import { phone, prepare, reload, small } from "./phone";
import { hold } from "./poses";
import { startServer } from "./server";

const sent = (page: Page) => expect(page.locator(".sending")).toContainText("All sent");

const timeline = (page: Page) =>
  page.locator(".told").evaluateAll((all) =>
    all
      .map((one) => one.querySelector(".told-line")?.lastChild?.textContent?.trim() ?? "")
      .filter(Boolean)
      .sort(),
  );

test("the skipper comes aboard, invites a mate by code and a guest by QR, and shuts one out", async ({
  aboard,
  browser,
  server,
}) => {
  const skipper = await aboard("Ann", "skipper");
  await startTrip(skipper);
  await writeNote(skipper, "first of the trip");
  await sent(skipper);

  await skipper.goto("/#/enrol/invite");
  await calm(skipper);
  await skipper.getByRole("button", { name: "Make the invitation" }).click();
  const qr = skipper.getByRole("img", { name: "QR code of the invitation" });
  await expect(qr).toBeVisible();
  expect(await qr.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBeGreaterThan(0);
  const code = await skipper.locator(".code").innerText();

  const mate = await phone(browser, { baseURL: server.url });
  await mate.goto("/#/enrol");
  await mate.getByLabel("A name for this phone").fill("Ben");
  await mate.getByLabel("Code", { exact: true }).fill("WRNG-CODE");
  for (const pose of ["small phone", "large letters", "small phone sideways"] as const) {
    await hold(mate, pose);
    await calm(mate);
    await mate.getByRole("button", { name: "Come aboard" }).click();
    // Seen whole without looking for it.
    const no = mate.getByRole("status").filter({ hasText: /\w{5}/ });
    await expect(no, pose).toBeInViewport({ ratio: 1 });
  }
  await hold(mate, "small phone");
  await mate.getByLabel("Code", { exact: true }).fill(code.toLowerCase().replace("-", " "));
  await calm(mate);
  await mate.getByRole("button", { name: "Come aboard" }).click();
  await expect(mate.getByText("This phone is “Ben”, mate.")).toBeVisible();
  await mate.goto("/#/notes/past");
  await expect(mate.locator(".links a").first()).toBeVisible();

  await skipper.goto("/#/enrol/phones");
  await skipper.getByRole("link", { name: /Ben/ }).click();
  await calm(skipper);
  await expect(skipper.getByText("Last exchange")).toBeVisible();
  // What the mate's phone lacks by its own word.
  await expect(async () => {
    await reload(skipper);
    await expect(skipper.getByText(/\d things are left|One thing is left/)).toBeVisible({ timeout: 10_000 });
  }).toPass();
  await expect(skipper.getByText("On the home screen")).toBeVisible();
  await calm(skipper);
  await skipper.getByRole("button", { name: "Shut this phone out" }).click();
  await expect(skipper.getByText("Shut out", { exact: true })).toBeVisible();
  // The one invitation is used up: there is none to come back by.
  await expect(skipper.getByText("None is open.")).toBeVisible();

  // Shut out, the mate keeps everything, is told so, and can save it.
  await mate.goto("/#/notes");
  await expect(row(mate, "first of the trip")).toBeVisible();
  await writeNote(mate, "after I was shut out");
  await expect(mate.locator(".sending")).toContainText("1 change not sent");
  await mate.goto("/#/notes/unsent");
  await expect(mate.getByText("does not know this phone any more")).toBeVisible();
  await calm(mate);
  const [download] = await Promise.all([
    mate.waitForEvent("download"),
    mate.getByRole("button", { name: "Save it to a file" }).click(),
  ]);
  expect(readFileSync(await download.path(), "utf8")).toContain("after I was shut out");
  await mate.goto("/#/enrol");
  await expect(mate.getByText("The boat does not know this phone any more")).toBeVisible();
  await expect(mate.getByText("This phone is")).toHaveCount(0);
  await expect(mate.getByRole("button", { name: "Ask the skipper" })).toBeVisible();
});

/** Ends a browser as an empty battery does: its own process for this profile, and all that this one started. */
function killHard(profile: string): void {
  const listed = execFileSync("ps", ["-A", "-ww", "-o", "pid=,ppid=,args="], { encoding: "utf8" });
  const all = listed.split("\n").flatMap((line) => {
    const [, pid, parent, words] = /^\s*(\d+)\s+(\d+)\s+(.*)$/.exec(line) ?? [];
    return pid && words ? [{ pid: Number(pid), parent: Number(parent), words }] : [];
  });
  const doomed = all
    .filter(({ words }) => words.includes(`--user-data-dir=${profile}`) && !words.includes(" --type="))
    .map(({ pid }) => pid);
  for (const pid of doomed)
    doomed.push(...all.filter(({ parent }) => parent === pid).map((child) => child.pid));
  for (const pid of new Set(doomed)) process.kill(pid, "SIGKILL");
}

test("who was shut out comes back by a link that is open, until the skipper ends it", async ({
  aboard,
  browser,
  server,
}) => {
  const skipper = await aboard("Ann", "skipper");
  await startTrip(skipper);
  const link = server.invite("mate", "--uses", "3");
  const gus = await phone(browser, { baseURL: server.url });
  await comeAboard(gus, server, "Gus", link);
  const shutOut = async () => {
    await skipper.goto("/#/enrol/phones");
    await skipper.getByRole("link", { name: /Gus/ }).first().click();
    await calm(skipper);
    await skipper.getByRole("button", { name: "Shut this phone out" }).click();
  };
  await shutOut();
  const open = skipper.locator(".ask");
  await expect(open).toContainText("mate · for 2 phones");
  await expect(open).toContainText("in the terminal");
  await expect(open).toContainText("This phone had come by it.");
  await comeAboard(gus, server, "Gus", link);
  // It is listed once: as what it was before it stands apart.
  await skipper.goto("/#/enrol/phones");
  await expect(skipper.getByRole("link", { name: /Gus/ })).toHaveCount(1);
  await calm(skipper);
  await skipper.getByRole("button", { name: "Shut out: 1" }).click();
  await expect(skipper.getByRole("link", { name: /Gus/ })).toHaveCount(2);

  // A second phone takes no name that looks like another's, and says so at the field; nothing of the link is lost by it.
  const other = await phone(browser, { baseURL: server.url });
  await other.goto(`${server.url}/${link}`);
  const name = other.getByLabel("A name for this phone");
  await name.fill("GUS ");
  await calm(other);
  await other.getByRole("button", { name: "Come aboard" }).click();
  await expect(other.locator(".field-trouble")).toContainText("or one that looks the same");
  await name.fill("Gus B");
  await expect(other.locator(".field-trouble")).toHaveCount(0);
  await calm(other);
  await other.getByRole("button", { name: "Come aboard" }).click();
  await expect(other.getByText("This phone is “Gus B”")).toBeVisible();

  // That link is used up; of another that is open nobody comes aboard once it was ended.
  const another = server.invite("mate", "--uses", "4");
  await skipper.goto("/#/enrol/invite");
  await expect(open).toHaveCount(1);
  await calm(skipper);
  await open.getByRole("button", { name: "End it" }).click();
  await expect(skipper.getByText("None is open.")).toBeVisible();
  await expect(open).toHaveCount(0);
  const late = await phone(browser, { baseURL: server.url });
  await late.goto(`${server.url}/${another}`);
  await late.getByLabel("A name for this phone").fill("Cem");
  await calm(late);
  await late.getByRole("button", { name: "Come aboard" }).click();
  await expect(late.getByText("This invitation is not, or no longer, good.")).toBeVisible();
  // It is in the way of no other.
  await expect(late.getByRole("button", { name: /^Ask/ })).toBeEnabled();
  await expect(late.getByLabel(/^Code/)).toBeVisible();
});

test("two phones apart, one killed hard: both back, both the same, and both versions there to choose @keeps", async ({
  server,
}) => {
  const profiles = [0, 1].map(() => mkdtempSync(join(tmpdir(), "wirewake-phone-")));
  const open = async (profile: string) =>
    prepare(
      await chromium.launchPersistentContext(profile, {
        executablePath: chromiumPath,
        args: asked,
        ...small,
        baseURL: server.url,
      }),
    );
  const contexts: BrowserContext[] = [];
  try {
    for (const profile of profiles) contexts.push(await open(profile));
    const ann = contexts[0]?.pages()[0] as Page;
    await comeAboard(ann, server, "Ann", server.invite("skipper"));
    await comeAboard(contexts[1]?.pages()[0] as Page, server, "Ben", server.invite("mate"));
    // Ben came aboard on another day: a browser takes half a minute until a cookie is on its disk.
    await contexts[1]?.close();
    contexts[1] = await open(profiles[1] as string);
    const ben = contexts[1].pages()[0] as Page;
    await startTrip(ann);
    await writeNote(ann, "two fish");
    await sent(ann);
    await exchangeNow(ben);
    await expect(row(ben, "two fish")).toBeVisible();
    for (const page of [ann, ben])
      await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");

    for (const context of contexts) await context.setOffline(true);
    const change = async (page: Page, words: string) => {
      await calm(page);
      await row(page, "two fish").click();
      await calm(page);
      await page.getByRole("button", { name: "Change it" }).click();
      await page.locator("textarea").fill(words);
      await page.getByRole("button", { name: "Done" }).click();
      await expect(page.locator(".large-words")).toHaveText(words);
      await page.goto("/#/notes");
    };
    await change(ann, "three fish");
    await change(ben, "four fish");
    await writeNote(ann, "Ann alone");
    await writeNote(ben, "Ben alone");
    await calm(ben);
    await ben.getByRole("button", { name: "Mark" }).click();
    // Saved is what the disk has: from here on the battery may go.
    await expect(ben.getByText("Saved.")).toBeVisible();
    const gone = (contexts[1] as BrowserContext).waitForEvent("close");
    killHard(profiles[1] as string);
    await gone;

    contexts[1] = await open(profiles[1] as string);
    await contexts[1].setOffline(true);
    const back = contexts[1].pages()[0] as Page;
    await back.goto("/#/notes");
    await expect(row(back, "Hookup")).toBeVisible();
    await expect(row(back, "Ben alone")).toBeVisible();
    await expect(back.locator(".sending")).toContainText("3 changes not sent");

    // Ann is at the marina first, so that Ben's entries get the higher numbers.
    await contexts[0]?.setOffline(false);
    await exchangeNow(ann);
    await contexts[1].setOffline(false);
    await exchangeNow(back);
    await exchangeNow(ann);
    for (const page of [ann, back]) await sent(page);
    // What Ann wrote is no other's to her.
    await expect(row(ann, "four fish")).toContainText("You wrote it otherwise");
    await expect(row(back, "four fish")).toContainText("Someone wrote it otherwise");
    expect(await timeline(ann)).toEqual(await timeline(back));

    // Whose version holds is one tap, here and there.
    await calm(ann);
    await row(ann, "four fish").click();
    await expect(ann.getByText(/wrote: Note three fish/)).toBeVisible();
    await calm(ann);
    await ann.getByRole("button", { name: "Take this" }).click();
    await expect(ann.locator(".large-words")).toHaveText("three fish");
    await exchangeNow(ann);
    await exchangeNow(back);
    await expect(row(back, "three fish")).not.toContainText("otherwise");
    expect(await timeline(ann)).toEqual(await timeline(back));
  } finally {
    for (const context of contexts) await context.close().catch(() => undefined);
    for (const profile of profiles) rmSync(profile, { recursive: true, force: true });
  }
});

test("a guest sees one trip and no other, and sends only that", async ({ aboard, browser, server }) => {
  const skipper = await aboard("Ann", "skipper");
  for (const [name, words] of [
    ["Monday", "the crew's own"],
    ["Tuesday", "with guests"],
  ] as const) {
    await startTrip(skipper);
    await writeNote(skipper, words);
    await calm(skipper);
    await skipper.locator("a.notes-trip").click();
    await calm(skipper);
    await skipper.getByLabel("Name", { exact: true }).fill(name);
    await skipper.getByLabel("Name", { exact: true }).blur();
    if (name === "Monday") {
      await calm(skipper);
      await closeTrip(skipper);
    }
  }
  await skipper.goto("/#/notes");
  await sent(skipper);

  const guest = await phone(browser, { baseURL: server.url });
  await startTrip(guest);
  await writeNote(guest, "my own day");
  await comeAboard(guest, server, "Gus", server.invite("guest", "--trip", "Tuesday"));
  await guest.goto("/#/notes");
  await expect(row(guest, "with guests")).toBeVisible();
  await writeNote(guest, "from the guest");
  // The guest's own day stays on the guest's phone, and is not called sent.
  await expect(guest.locator(".sending")).toHaveText(/^2 held back$/);
  await guest.goto("/#/notes/past");
  await calm(guest);
  await guest.getByLabel("Search all notes").fill("crew");
  await expect(guest.getByText("Nothing found.")).toBeVisible();

  await exchangeNow(skipper);
  await expect(row(skipper, "from the guest")).toContainText("Gus");
  await skipper.goto("/#/notes/past");
  await calm(skipper);
  await skipper.getByLabel("Search all notes").fill("my own day");
  await expect(skipper.getByText("Nothing found.")).toBeVisible();
});

test("over plain http it says why this phone cannot come aboard, and notes work all the same", async ({
  server,
}) => {
  const app = await chromium.launch({
    executablePath: chromiumPath,
    args: [...asked, "--host-resolver-rules=MAP boat.test 127.0.0.1"],
  });
  const page = await phone(app);
  // A server that was told to do without https: else the network gets only the way in.
  const plain = await startServer("--address", "http://boat.test");
  const url = `http://boat.test:${plain.port}`;
  await page.goto(`${url}/${server.invite("mate")}`);
  await expect(page.getByText("A phone can come aboard only over a secure connection")).toBeVisible();
  expect(page.url()).not.toContain("join");
  await page.goto(`${url}/#/notes`);
  await calm(page);
  await page.getByRole("button", { name: "Mark" }).click();
  await expect(page.getByText("Saved.")).toBeVisible();
  await page.goto(`${url}/#/notes/new/photo`);
  await expect(page.getByText("Photos need a secure connection")).toBeVisible();
  await app.close();
  await plain.stop();
});

test("whatever the server refuses, and when it is not there, the phone says what it is and keeps the notes", async ({
  aboard,
}) => {
  const page = await aboard("Ann", "skipper");
  await startTrip(page);
  await sent(page);
  await test.step("what the server refuses stays, with the reason, and is sent anew; a wrong clock is told", async () => {
    // A server that does not like the next note, and has another time.
    let refuse = true;
    await page.route("**/api/exchange", async (route) => {
      const response = await route.fetch();
      const answer = await response.json();
      answer.now -= 3_600_000;
      if (refuse && answer.taken.length > 0) {
        answer.refused = answer.taken.map(({ id }: { id: string }, index: number) => ({
          index,
          id,
          code: "record",
          why: "This record is of another kind.",
        }));
        answer.taken = [];
        refuse = false;
      }
      await route.fulfill({ response, json: answer });
    });
    await writeNote(page, "hard to please");
    await expect(page.locator(".sending")).toContainText("1 not taken");
    await calm(page);
    await page.locator(".sending").click();
    await expect(page.getByText("This record is of another kind.")).toBeVisible();
    await expect(page.getByText("This phone’s clock is 60 min ahead")).toBeVisible();
    await calm(page);
    await page.getByRole("button", { name: "Keep it here only" }).click();
    await expect(page.getByRole("main").getByText("1 kept here")).toBeVisible();
    await expect(page.getByText("All sent")).toHaveCount(0);
    await calm(page);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.getByText("This record is of another kind.")).toBeVisible();
    await calm(page);
    await page.getByRole("link", { name: "Look and change" }).click();
    await calm(page);
    await page.getByRole("button", { name: "Send it anew" }).click();
    await page.goto("/#/notes");
    await sent(page);
    await expect(row(page, "hard to please")).toHaveCount(1);
    // An exchange that is under way has nobody to answer it any more.
    await page.unrouteAll({ behavior: "ignoreErrors" });
  });
  await test.step("a boat of which nothing is taken is told as what it is", async () => {
    // The codes are those of server/sync/README.md.
    for (const [code, status, says] of [
      ["suspended", 503, "The harbour does not serve this boat for now."],
      ["full", 507, "can make or allow more"],
    ] as const) {
      await page.route("**/api/exchange", (route) =>
        route.request().postData()?.includes('"entries":[]') && code === "full"
          ? route.continue()
          : route.fulfill({ status, json: { code, text: "said" } }),
      );
      await writeNote(page, `of a boat that is ${code}`);
      await page.goto("/#/notes/unsent");
      await calm(page);
      await page.getByRole("button", { name: "Try now" }).click();
      await expect(page.getByRole("status").filter({ hasText: says }), code).toBeVisible();
      await expect(page.getByText("You need do nothing."), code).toHaveCount(0);
    }
    await page.unrouteAll({ behavior: "ignoreErrors" });
  });
  await test.step("without the server it says why nothing can be asked of it", async () => {
    await page.context().setOffline(true);
    await page.goto("/#/enrol/phones");
    await expect(page.getByText("The boat’s server is not in reach")).toBeVisible();
    await page.goto("/#/enrol/invite");
    await calm(page);
    await page.getByRole("button", { name: "Make the invitation" }).click();
    // What is told besides of the invitations that are open stands in their own section.
    const told = page.locator(".notice:not(section *)", { hasText: "The boat’s server is not in reach" });
    await expect(told).toBeVisible();
  });
});
