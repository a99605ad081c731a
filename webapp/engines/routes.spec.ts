/** Every page of the app once, by its own list of them: no fault, and nothing beside the screen. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { frame } from "../src/base/text/en/frame";
import { expect, test } from "./engines";
import { type Phone, upright } from "./phone";

const app = join(import.meta.dirname, "../src/app");

/** Addresses of places and pages, with ":id" and the like for the parts that are not the same in each. */
const patterns = ["places.ts", "routes.ts"]
  .flatMap((file) => [...readFileSync(join(app, file), "utf8").matchAll(/path: ["`]([^"`]+)["`]/g)])
  .map(([, path = ""]) => path.replaceAll(/\$\{(\w+)\}/g, ":$1"));

const matches = (pattern: string, path: string) =>
  new RegExp(`^${pattern.replaceAll(/:\w+/g, "[^/]+")}$`).test(path);

const steps = ["measure", "judge", "bleed", "slush", "release"];

/** By what a page is known to be complete that asks the server first; else it is by its heading. */
const comes: { [path: string]: string } = { "enrol/phones": 'a[href^="#/enrol/phone/"]' };

const sideways = { width: upright.height, height: upright.width };

test("every page, upright and sideways", async ({ phone, server, engine }) => {
  await inUse(phone, server.invite("skipper"), engine);

  // From the places on along all links, to one page of each kind.
  const paths = patterns.filter((pattern) => !/[:$]/.test(pattern));
  for (const path of paths) {
    await look(phone, path);
    for (const found of await phone.run(linked)) {
      const known = (pattern: string) => matches(pattern, found) && paths.some((p) => matches(pattern, p));
      if (patterns.some((pattern) => matches(pattern, found)) && !patterns.some(known)) paths.push(found);
    }
  }
  const never = patterns.filter((pattern) => !paths.some((path) => matches(pattern, path)));
  for (const path of never.map((pattern) => unlinked(pattern, paths))) {
    await look(phone, path);
    paths.push(path);
  }

  await phone.resize(sideways);
  for (const path of paths) await look(phone, path);
});

/** The address of a page to which no link leads now: its id is that of a page that speaks of the same. */
function unlinked(pattern: string, paths: string[]): string {
  const like: { [pattern: string]: string } = {
    "notes/told/:id": "notes/record/:id",
    "crew/trouble/:id": "gear/:kind/:id",
    ...Object.fromEntries(steps.map((step) => [`fish/${step}/:id`, "fish/land/:id"])),
  };
  if (pattern === "lines/plan/:id" || pattern === "overboard/:id") return pattern.replace(":id", "0");
  const other = paths.find((path) => matches(like[pattern] ?? "", path));
  if (!other) throw new Error(`No way is known to ${pattern}.`);
  const id = other.split("/").slice(1);
  return pattern.replace(":id", pattern.startsWith("crew") ? id.join(".") : (id.at(-1) as string));
}

/** Aboard, with a trip, a mark, a fish in hand. */
async function inUse(phone: Phone, invitation: string, name: string): Promise<void> {
  await phone.go("");
  await phone.go(invitation);
  await phone.sees("Here is an invitation.");
  await phone.fill("A name for this phone", name);
  await phone.tap("Come aboard");
  await phone.sees(`This phone is “${name}”`);
  await phone.go("#/notes");
  await phone.tap("Start a trip");
  await phone.tap(/^Mark/);
  await phone.sees("Saved.");
  await phone.go("#/fish");
  await phone.tap(/^Fish up/);
}

const linked = () =>
  [...document.querySelectorAll('a[href^="#/"]')].map((a) => a.getAttribute("href")?.slice(2) ?? "");

async function look(phone: Phone, path: string): Promise<void> {
  await phone.run((path) => {
    location.hash = `#/${path}`;
  }, path);
  await phone.until((there) => document.querySelector(there), comes[path] ?? "main h1, main h2");
  expect.soft(await phone.run(seen, frame.notices.failed.what("")), path).toEqual([]);
}

/** What of the page is wider than the screen or lies beside it, and whether it failed. */
function seen(failed: string): string[] {
  const wide = innerWidth + 1;
  const trouble = document.body.innerText.includes(failed) ? [failed] : [];
  if (document.documentElement.scrollWidth > wide)
    trouble.push(`the page: ${document.documentElement.scrollWidth}`);
  for (const one of document.querySelectorAll("body *:not(svg *)")) {
    const { left, right, width, height } = one.getBoundingClientRect();
    if (width <= 1 || height <= 1 || (left >= -1 && right <= wide)) continue;
    // A table may be moved sideways on its own (WCAG 1.4.10).
    if (one.parentElement?.closest(".wide-table")) continue;
    trouble.push(`${one.tagName}.${one.className}, ${left} to ${right}: ${one.textContent?.slice(0, 40)}`);
  }
  return trouble;
}
