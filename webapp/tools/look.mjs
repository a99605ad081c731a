// How the figures look at a page that is measured: through the debugger alone. What Playwright itself waits with, it brings into
// the page first, a third of a megabyte that the page's own thread has to read, and then it looks with each frame.

/** In the page, before all else: its long tasks, and when the first note was drawn where it is loaded at Notes. */
export const watch = () => {
  window.tasks = [];
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries()) window.tasks.push({ startTime, duration });
  }).observe({ type: "longtask", buffered: true });
  if (location.hash !== "#/notes") return;
  const seen = new MutationObserver(() => {
    if (!document.querySelector(".told")) return;
    seen.disconnect();
    requestAnimationFrame(() =>
      setTimeout(() => {
        window.drawn = performance.now();
      }),
    );
  });
  seen.observe(document, { childList: true, subtree: true });
};

/** In the page: the longest task since it was last asked, ms; 0 where none was as long as 50, and what the first paint takes is none. */
const longest = () => {
  const [painted] = performance.getEntriesByName("first-contentful-paint");
  const after = window.tasks.splice(0).filter(({ startTime }) => startTime >= (painted?.startTime ?? 0));
  return Math.max(0, ...after.map(({ duration }) => duration));
};

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/** What can be asked of a page from now on. */
export async function look(page) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send("Performance.enable");

  /** So many times slower; 1 is as fast as it can. A page that is slowed down takes half a core even while it rests. */
  const slow = (rate) => cdp.send("Emulation.setCPUThrottlingRate", { rate });

  /** What a function tells in the page. */
  async function told(of, ...given) {
    const expression = `(${of})(...${JSON.stringify(given)})`;
    const how = { expression, returnByValue: true, awaitPromise: true };
    const { result, exceptionDetails } = await cdp.send("Runtime.evaluate", how);
    if (exceptionDetails) throw new Error(exceptionDetails.exception?.description ?? exceptionDetails.text);
    return result.value;
  }

  /** Until it is so. */
  async function until(so, ...given) {
    for (const end = Date.now() + 120_000; Date.now() < end; await pause(50))
      if (await told(so, ...given).catch(() => false)) return;
    throw new Error(`Never came to be: ${so}`);
  }

  /** What the page's own thread has done for the document that is in it, ms: Chromium counts from nothing with each that is loaded. */
  async function busy() {
    const { metrics } = await cdp.send("Performance.getMetrics");
    return metrics.find(({ name }) => name === "TaskDuration").value * 1000;
  }

  /** Until it has next to nothing to do for a second; what it has done by then. */
  async function quiet(most = 60_000) {
    let before = await busy();
    for (let waited = 0, still = 0; still < 4 && waited < most; waited += 250) {
      await pause(250);
      const now = await busy();
      still = now - before < 15 ? still + 1 : 0;
      before = now;
    }
    return before;
  }

  /** Leaves it for a picture of the same server: what comes there next runs in the same process. */
  const leave = (url) => page.goto(new URL("/icons/icon.svg", url).href);

  /** Loads it anew at an address; what it shows before that, is a picture. */
  async function load(url) {
    await leave(url);
    await page.goto(url, { waitUntil: "commit" });
  }

  return { slow, told, until, busy, quiet, load, pause, longest: () => told(longest) };
}
