// Measures what the first load weighs, how fast the phone answers, and what Lighthouse says. It prints numbers and
// judges nothing. Needs ../bin/wirewake built; run it on a machine that is doing nothing else. One part of it: node
// tools/figures.mjs seasons
import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { createServer as createHttpServer } from "node:http";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { chromium } from "@playwright/test";
import { launch } from "chrome-launcher";
import lighthouse from "lighthouse";
import { chromiumPath } from "./chromium.mjs";
import { instruments } from "./instruments-figures.mjs";
import { notes } from "./notes-figures.mjs";
import { seasons } from "./seasons-figures.mjs";
import { starts } from "./start-figures.mjs";
import { answerBudget, budget, shellBudget, weigh } from "./weigh.mjs";

const root = join(import.meta.dirname, "../..");
const slowdown = 4;
const kB = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;
const ms = (time) => `${time.toFixed(1)} ms`;
const row = (name, value) => console.log(`  ${name.padEnd(70)}${value}`);
const median = (all) => [...all].sort((a, b) => a - b)[all.length >> 1];

function tellWeight() {
  const { sent, all, answer, shell } = weigh();
  console.log("First load over the wire, brotli");
  for (const { name, size, apart } of sent) row(`${name}${apart ? " (apart)" : ""}`, kB(size));
  row(`all (budget ${budget / 1000} kB)`, kB(all));
  row(`of it to the first answer (budget ${answerBudget / 1000} kB)`, kB(answer));
  row(`of that what is shown first (budget ${shellBudget / 1000} kB)`, kB(shell));
}

async function serve(...more) {
  const port = await new Promise((done) => {
    const probe = createServer().listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => done(port));
    });
  });
  const data = mkdtempSync(join(tmpdir(), "wirewake-figures-"));
  const args = ["serve", "--listen", `127.0.0.1:${port}`, "--data", data, ...more];
  const binary = join(root, "bin/wirewake");
  const server = spawn(binary, args, { stdio: "ignore" });
  const url = `http://localhost:${port}`;
  while (!(await fetch(`${url}/healthz`).catch(() => undefined))?.ok)
    await new Promise((done) => setTimeout(done, 50));
  const stop = async () => {
    const gone = new Promise((done) => server.once("exit", done));
    server.kill("SIGTERM");
    await gone;
    rmSync(data, { recursive: true, force: true });
  };
  return { url, data, binary, stop };
}

const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };
const browser = { executablePath: chromiumPath, args: ["--no-sandbox"] };
const firstAnswer = ".rod .readout:not(:text('–'))";

async function slow(page) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: slowdown });
}

// Times from a tap to the new picture in the document, at the pace of a held button.
const taps = (page) =>
  page.evaluate(async () => {
    const more = document.querySelector(".place-deck .step:last-of-type");
    const line = document.querySelector(".towed.chosen .line");
    const all = [];
    for (let i = 0; i < 30; i++) {
      await new Promise((done) => setTimeout(done, 140));
      const from = performance.now();
      const drawn = new Promise((done) => {
        const seen = new MutationObserver(() => {
          seen.disconnect();
          done();
        });
        seen.observe(line, { attributeFilter: ["d"] });
      });
      more.click();
      await drawn;
      all.push(performance.now() - from);
    }
    return all;
  });

// The browser's slowdown spares workers, so the calculator runs on the page's own thread here.
async function calculator(url) {
  const app = await chromium.launch(browser);
  const page = await app.newPage(phone);
  await page.addInitScript(() => {
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (message) {
      if (message.name === "spread") window.spread = message.request;
      window.worker = this;
      post.call(this, message);
    };
  });
  await page.goto(`${url}/#/lines`);
  await page.waitForSelector(firstAnswer);
  // While the first steps are told there is no room for the picture.
  await page.waitForTimeout(1500);
  await page.getByRole("button", { name: "Noted" }).click();
  while ((await page.locator(".rod").count()) < 8) {
    await page.getByRole("button", { name: "Add a rod" }).click();
    await page.waitForTimeout(600);
  }
  // Only rods that were changed are asked for: all of them are after a start.
  await page.reload();
  await page.waitForFunction(() => window.spread);
  const request = await page.evaluate(() => window.spread);
  await inWorker(page, request);
  await page.addScriptTag({ url: "/wasm_exec.js" });
  await page.evaluate(async () => {
    const go = new window.Go();
    const { instance } = await WebAssembly.instantiateStreaming(fetch("/calc.wasm"), go.importObject);
    go.run(instance);
  });
  const times = (rounds, request) =>
    page.evaluate(
      ({ request, rounds }) => {
        const ask = (i) => {
          const spread = JSON.parse(request);
          spread.sea.speed += 0.001 * i;
          const from = performance.now();
          window.wirewakeDesk("spread", JSON.stringify(spread));
          return performance.now() - from;
        };
        return Array.from({ length: rounds }, (_, i) => ask(i));
      },
      { request, rounds },
    );
  // All that the app asks for when a finger is on one rod's line.
  const whole = JSON.parse(request);
  const one = JSON.stringify({ ...whole, rods: whole.rods.slice(0, 1) });
  await times(100, request);
  const full = await times(100, request);
  const fullTaps = await taps(page);
  await slow(page);
  const slowed = await times(100, request);
  const slowedOne = await times(100, one);
  const slowTaps = await taps(page);
  console.log(`\nSpread of 8 rods with bands, JSON in to JSON out (one frame: 16.7 ms)`);
  row("full speed, median", ms(median(full)));
  row(`${slowdown}× slower, median`, ms(median(slowed)));
  row(`${slowdown}× slower, 95th of 100`, ms([...slowed].sort((a, b) => a - b)[94]));
  row(`one rod of them, ${slowdown}× slower, median`, ms(median(slowedOne)));
  row("all of them beside one, times as long", (median(slowed) / median(slowedOne)).toFixed(1));

  console.log("\nTap to new picture of 8 rods, through the worker (the browser slows down the page alone)");
  row("full speed, median", ms(median(fullTaps)));
  row(`page ${slowdown}× slower, median`, ms(median(slowTaps)));
  await app.close();
}

// Processes begun from this one, and theirs.
const children = (pid) => {
  const tasks = readdirSync(`/proc/${pid}/task`);
  const own = tasks.flatMap(
    (task) => readFileSync(`/proc/${pid}/task/${task}/children`, "utf8").match(/\d+/g) ?? [],
  );
  return own.flatMap((child) => [Number(child), ...children(child)]);
};

// Processor time of all workers' threads of the browsers that run, in ms: what else the machine does is not in it.
function workersTime() {
  let ticks = 0;
  for (const pid of children(process.pid))
    for (const task of readdirSync(`/proc/${pid}/task`)) {
      const [, name, rest] =
        /\((.*)\) (.*)/.exec(readFileSync(`/proc/${pid}/task/${task}/stat`, "utf8")) ?? [];
      if (name === "DedicatedWorker") ticks += Number(rest.split(" ")[11]) + Number(rest.split(" ")[12]);
    }
  return ticks * 10;
}

// The spread through the app's own worker, there and back. The browser's slowdown leaves a worker alone, so its processor
// time is taken at full speed.
async function inWorker(page, request) {
  const ask = (rounds) =>
    page.evaluate(
      async ({ request, rounds }) => {
        for (let i = 0; i < rounds; i++) {
          const spread = JSON.parse(request);
          spread.sea.speed += 0.001 * (i % 100);
          await new Promise((done) => {
            const heard = ({ data }) => {
              if (data.id !== -1 - i) return;
              window.worker.removeEventListener("message", heard);
              done();
            };
            window.worker.addEventListener("message", heard);
            window.worker.postMessage({ id: -1 - i, name: "spread", request: JSON.stringify(spread) });
          });
        }
      },
      { request, rounds },
    );
  const rounds = 500;
  await ask(rounds);
  const from = workersTime();
  await ask(rounds);
  const each = (workersTime() - from) / rounds;
  console.log("\nSpread of 8 rods with bands through the app's worker: its processor time");
  row("full speed, mean", ms(each));
  row(`that ${slowdown} times`, ms(slowdown * each));
}

// Slows a whole browser down, workers, service worker and all, by stopping its processes most of the time
// while the clock goes on. Returns the way to end it.
function slowAll(profile) {
  const isMain = (pid) => {
    try {
      const words = readFileSync(`/proc/${pid}/cmdline`, "utf8").split("\0");
      return (
        words.includes(`--user-data-dir=${profile}`) && !words.some((word) => word.startsWith("--type="))
      );
    } catch {
      return false;
    }
  };
  const main = children(process.pid).filter(isMain);
  let all = [];
  let ended = false;
  const send = (signal) => {
    for (const pid of all) {
      try {
        process.kill(pid, signal);
      } catch {
        // It has ended by itself.
      }
    }
  };
  const pause = (time) => new Promise((done) => setTimeout(done, time));
  const run = async () => {
    for (let i = 0; !ended; i++) {
      if (i % 10 === 0) all = main.flatMap((pid) => [pid, ...children(pid)]);
      send("SIGSTOP");
      await pause(stopped);
      send("SIGCONT");
      await pause(running);
    }
  };
  const done = run().finally(() => send("SIGCONT"));
  return async () => {
    ended = true;
    await done;
  };
}

// In ms. Timers take about one more each; the slowdown that comes of it is measured and printed.
const stopped = 20;
const running = 4;

const spin = (page) =>
  page.evaluate(() => {
    const from = performance.now();
    let x = 0;
    for (let i = 0; i < 1e8; i++) x += Math.sqrt(i);
    return performance.now() - from + 0 * x;
  });

async function coldStart() {
  const { url, stop } = await serve();
  const profile = mkdtempSync(join(tmpdir(), "wirewake-figures-"));
  const open = () => chromium.launchPersistentContext(profile, { ...browser, ...phone });
  let context = await open();
  let page = context.pages()[0];
  await page.goto(`${url}/#/lines`);
  await page.waitForSelector(firstAnswer);
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  await page.waitForTimeout(1500);
  const fast = await spin(page);
  await context.close();
  await stop();

  const runs = [];
  for (let i = 0; i < 5; i++) {
    context = await open();
    await context.setOffline(true);
    page = context.pages()[0];
    await page.addInitScript(() => {
      window.marks = {};
      new MutationObserver(() => {
        if (document.querySelector(".rods")) window.marks.shell ??= performance.now();
        if (/\d.*±/.test(document.querySelector(".rod .readout")?.textContent ?? "")) {
          window.marks.answer ??= performance.now();
        }
      }).observe(document, { childList: true, subtree: true, characterData: true });
    });
    await page.waitForTimeout(1000);
    const end = slowAll(profile);
    await page.goto(`${url}/#/lines`);
    await page.waitForFunction(() => window.marks.answer);
    const marks = await page.evaluate(() => window.marks);
    runs.push({ ...marks, slowdown: (await spin(page)) / fast });
    await end();
    await context.close();
  }
  rmSync(profile, { recursive: true, force: true });
  console.log("\nCold start, server stopped and network cut, the whole browser slowed down (median of 5)");
  row("slowdown measured", `${median(runs.map((run) => run.slowdown)).toFixed(1)}×`);
  row("rods on screen", ms(median(runs.map((run) => run.shell))));
  row("first answer (budget at 4×: 1000 ms)", ms(median(runs.map((run) => run.answer))));
}

// A server of the bare page, with all else as the app's server has it.
async function serveBare(url, page) {
  const server = createHttpServer(async (request, response) => {
    if (request.url === "/") return response.setHeader("content-type", "text/html").end(page);
    const file = await fetch(url + request.url, { headers: { "accept-encoding": "identity" } });
    response.setHeader("content-type", file.headers.get("content-type") ?? "");
    const zipped = gzipSync(Buffer.from(await file.arrayBuffer()));
    response.setHeader("content-encoding", "gzip").end(zipped);
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  return { bareUrl: `http://127.0.0.1:${server.address().port}/`, end: () => server.close() };
}

async function lighthouseOf(url) {
  const chrome = await launch({ chromePath: chromiumPath, chromeFlags: ["--headless=new", "--no-sandbox"] });
  const { lhr } = await lighthouse(url, {
    port: chrome.port,
    onlyCategories: ["performance", "accessibility", "best-practices"],
    logLevel: "error",
  });
  chrome.kill();
  return lhr;
}

async function lighthouses(url, page, rounds = 3) {
  const { bareUrl, end } = await serveBare(url, page);
  const all = { app: [], bare: [] };
  for (let i = 0; i < rounds; i++) {
    all.app.push(await lighthouseOf(`${url}/`));
    all.bare.push(await lighthouseOf(bareUrl));
  }
  end();
  console.log(`\nLighthouse ${all.app[0].lighthouseVersion}, mobile; min, median, max of ${rounds} by turns`);
  const told = (numbers) => {
    const sorted = [...numbers].sort((a, b) => a - b);
    return [sorted[0], median(sorted), sorted.at(-1)].map(Math.round).join(" / ");
  };
  for (const [name, what] of [
    ["app", "the app"],
    ["bare", "the bare page"],
  ]) {
    row(`performance, ${what}`, told(all[name].map(({ categories }) => 100 * categories.performance.score)));
    row(
      `total blocking time, ${what}, ms`,
      told(all[name].map(({ audits }) => audits["total-blocking-time"].numericValue)),
    );
  }
  for (const { id, title, score } of Object.values(all.app[0].categories))
    if (id !== "performance") row(`${title}, the app`, Math.round(score * 100));
  for (const audit of Object.values(all.app[0].audits))
    if (audit.score !== null && audit.score < 0.9) row(`  ${audit.id}`, audit.displayValue ?? audit.score);
}

// All of it, or one part by its name.
const kit = { phone, browser, slow, median, row, ms };
const parts = {
  calculator,
  notes: (url) => notes(url, kit),
  seasons: (url) => seasons(url, kit),
  instruments: () => instruments(serve, kit),
  starts: (url) => starts(url, kit),
  lighthouse: async (url) => lighthouses(url, await starts(url, kit, 1)),
  cold: coldStart,
};
const asked = process.argv[2];
const chosen = asked ? [asked] : Object.keys(parts);
if (!asked) tellWeight();
const { url, stop } = await serve();
for (const name of chosen) await parts[name](url);
await stop();
