/** The whole story on a phone with another engine, which meets one with Chromium at the boat's server. */
import { join } from "node:path";
import { calm, comeAboard, exchangeNow, row, writeNote } from "../e2e/notes";
import { phone as another } from "../e2e/phone";
import { expect, test } from "./engines";
import type { Phone } from "./phone";

/** A picture 1280 pixels wide. */
const picture = join(import.meta.dirname, "../shots/lines-day.png");

/** Depth of the first rod's lure, as soon as it is another than this one. */
const depth = (phone: Phone, not = "") =>
  phone.until((not) => {
    const shown = document.querySelector(".rod .readout")?.textContent ?? "";
    return /\d.*±.*\d/.test(shown) && shown !== not ? shown : undefined;
  }, not);

/** How wide the photo on the page is, as soon as it is drawn. */
const width = (phone: Phone) =>
  phone.until(() => document.querySelector<HTMLImageElement>("main img")?.naturalWidth);

test("kept, the server lost, lines changed, a mark, a photo, the engine started anew, and brought together", async ({
  phone,
  server,
  engine,
  browser,
}) => {
  await phone.go("");
  const atTheDock = await depth(phone);
  await phone.until(() => navigator.serviceWorker.controller?.state === "activated");
  await phone.go(server.invite("skipper"));
  await phone.sees("Here is an invitation.");
  await phone.fill("A name for this phone", engine);
  await phone.tap("Come aboard");
  await phone.sees(`This phone is “${engine}”`);
  await phone.go("#/notes");
  await phone.tap("Start a trip");
  await phone.sees("All sent");

  await server.pause();
  await phone.go("#/lines");
  await phone.reload();
  await expect.poll(() => depth(phone)).toBe(atTheDock);
  await phone.tap("Line out", ".dial");
  await phone.tap("Line out", ".stepper-value");
  await phone.fill("Line out", "150\uE007");
  const lessLine = await depth(phone, atTheDock);
  expect(Number.parseInt(lessLine, 10)).toBeLessThan(Number.parseInt(atTheDock, 10));

  await phone.tap(/^Mark/);
  await phone.sees("Saved.");
  await phone.go("#/notes/new/photo");
  await phone.attach(picture);
  await phone.sees("Saved.");

  await phone.quit();
  await phone.start();
  await phone.go("#/lines");
  await expect.poll(() => depth(phone)).toBe(lessLine);
  await phone.go("#/notes");
  await phone.sees("Hookup");
  await phone.tap("Photo", ".told");
  expect(await width(phone)).toBe(1280);

  await server.restart();
  await phone.go("#/notes/unsent");
  await phone.tap("Try now");
  await phone.go("#/notes");
  await phone.sees("All sent");

  const other = await another(browser, { baseURL: server.url });
  await comeAboard(other, server, "Ben", server.invite("skipper"));
  await exchangeNow(other);
  await calm(other);
  await expect(row(other, "Hookup")).toBeVisible();
  await expect(row(other, "Photo")).toBeVisible();
  await writeNote(other, "seen on the other phone");
  await exchangeNow(other);
  await phone.go("#/notes/unsent");
  await phone.tap("Try now");
  await phone.go("#/notes");
  await phone.sees("seen on the other phone");
  await other.context().close();
});
