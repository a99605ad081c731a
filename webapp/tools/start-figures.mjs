// How a kept app starts with no network, beside a bare page that has the same module answer the same spread: by turns, in
// one browser whose page is slowed down.
import { chromium } from "@playwright/test";
import { look } from "./look.mjs";

/** In the page: when the rods stood there, when the first depth, and all long tasks. */
const watch = () => {
  window.marks = {};
  window.tasks = [];
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) window.tasks.push(duration);
  }).observe({ type: "longtask", buffered: true });
  new MutationObserver(() => {
    const rods = document.querySelector(".rods");
    if (rods) window.marks.shell ??= performance.now();
    const told = rods?.querySelector(".rod .readout")?.textContent ?? "";
    if (!/\d.*±|bare/.test(told)) return;
    window.marks.answer ??= performance.now();
    // The first one may be as of the last time.
    if (!/as of |cálculo: /.test(rods.textContent)) window.marks.fresh ??= performance.now();
  }).observe(document, { childList: true, subtree: true, characterData: true });
};

/** A page with nothing but the worker, that asks it for this spread. */
export const bare = (worker, request) => `<!doctype html><meta charset="utf-8"><title>bare</title>
<ol class="rods"><li class="rod"><span class="readout"></span></li></ol>
<script>
  const worker = new Worker(${JSON.stringify(worker)});
  worker.onmessage = ({ data }) => {
    if ("reply" in data) document.querySelector(".readout").textContent = "bare " + data.reply.length;
  };
  worker.postMessage({ id: 1, name: "spread", request: ${JSON.stringify(request)} });
</script>`;

export async function starts(url, kit, rounds = 7) {
  const { phone, browser, median, row, ms } = kit;
  const app = await chromium.launch(browser);
  const context = await app.newContext(phone);
  const page = await context.newPage();
  await page.addInitScript(() => {
    const { Worker } = window;
    window.Worker = class extends Worker {
      constructor(address) {
        super(address);
        window.hiredFrom = String(address);
      }
      postMessage(message) {
        if (message.name === "spread") window.asked ??= message.request;
        super.postMessage(message);
      }
    };
  });
  await page.goto(`${url}/#/lines`);
  await page.waitForSelector(".rod .readout:not(:text('–'))");
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  await page.waitForFunction(() => window.asked);
  await page.waitForTimeout(5000);
  const { asked, hiredFrom } = await page.evaluate(() => ({
    asked: window.asked,
    hiredFrom: window.hiredFrom,
  }));
  await page.close();
  const all = { app: [], bare: [] };
  for (let i = 0; i < 2 * rounds; i++) {
    const which = i % 2 ? "bare" : "app";
    const one = await context.newPage();
    await one.addInitScript(watch);
    if (which === "bare")
      await one.route("**/bare", (route) =>
        route.fulfill({ contentType: "text/html", body: bare(hiredFrom, asked) }),
      );
    const { slow, told, until, load, pause } = await look(one);
    await slow(4);
    await load(which === "bare" ? `${url}/bare` : `${url}/#/lines`);
    await until(() => window.marks.fresh > 0);
    await pause(1500);
    all[which].push(
      await told(() => ({
        ...window.marks,
        blocked: window.tasks.reduce((sum, task) => sum + Math.max(0, task - 50), 0),
      })),
    );
    await one.close();
  }
  await app.close();
  console.log(
    `\nStart of the kept app beside a bare page with the same module, page 4× slower; min, median, max of ${rounds}`,
  );
  for (const [name, what] of [
    ["shell", "rods on screen"],
    ["answer", "first depth, as of the last time where there is one"],
    ["fresh", "first depth of now"],
    ["blocked", "blocked by tasks over 50 ms"],
  ]) {
    const of = (which) => all[which].map((one) => one[name]).sort((a, b) => a - b);
    const [ours, theirs] = [of("app"), of("bare")];
    const told = (times) => [times[0], median(times), times.at(-1)].map((x) => ms(x)).join(" / ");
    row(`${what}, the app`, told(ours));
    const ratio = median(theirs) > 0 ? `  the app ${(median(ours) / median(theirs)).toFixed(2)} times` : "";
    row(`${what}, the bare page`, told(theirs) + ratio);
  }
  return bare(hiredFrom, asked);
}
