// How long a sentence of the boat's instruments takes to the screen, beside a bare echo of it by server-sent events: by turns,
// on one page of one browser, from when the sentence is sent until the frame with it is drawn.
import { execFileSync } from "node:child_process";
import { createServer as createEcho } from "node:http";
import { createServer } from "node:net";
import { chromium } from "@playwright/test";

const rounds = 40;
/** Longer than two updates are apart, ms. */
const apart = 1200;

const listening = (server) =>
  new Promise((done) => server.listen(0, "127.0.0.1", () => done(server.address().port)));

const sentence = (body) => {
  const sum = [...body].reduce((all, char) => all ^ char.charCodeAt(0), 0);
  return `$${body}*${sum.toString(16).toUpperCase().padStart(2, "0")}\r\n`;
};

/** In the page: when the frame is drawn in which the words are to be read at a place, ms since 1970. */
const drawn = ({ at, words }) =>
  new Promise((done) => {
    const look = () => {
      if (!document.querySelector(at)?.textContent.includes(words)) return;
      seen.disconnect();
      requestAnimationFrame(() => {
        const after = new MessageChannel();
        after.port1.onmessage = () => done(performance.timeOrigin + performance.now());
        after.port2.postMessage(0);
      });
    };
    const seen = new MutationObserver(look);
    seen.observe(document, { childList: true, subtree: true, characterData: true });
    look();
  });

export async function instruments(serve, { phone, browser, median, row, ms }) {
  const sockets = new Set();
  const gateway = createServer((socket) => {
    sockets.add(socket.setNoDelay(true));
    socket.on("error", () => sockets.delete(socket));
  });
  const source = `127.0.0.1:${await listening(gateway)}`;
  const ears = new Set();
  const echo = createEcho((_, reply) => {
    reply.writeHead(200, { "Content-Type": "text/event-stream", "Access-Control-Allow-Origin": "*" });
    reply.flushHeaders();
    ears.add(reply);
  });
  const bare = `http://127.0.0.1:${await listening(echo)}`;
  const { url, data, binary, stop } = await serve("--instruments", `tcp://${source}`);
  const said = execFileSync(binary, ["invite", "--role", "mate", "--data", data], { encoding: "utf8" });
  const [, invitation] = /#join=([^\s&]+)/.exec(said);
  const app = await chromium.launch(browser);
  // Else the page may hear nobody but its own server.
  const context = await app.newContext({ ...phone, bypassCSP: true, serviceWorkers: "block" });
  const page = await context.newPage();
  await page.goto(`${url}/#join=${invitation}`);
  await page.getByLabel("A name for this phone").fill("figures");
  // Sooner a tap is taken for an echo of the one before.
  await page.waitForTimeout(1000);
  await page.getByRole("button", { name: "Come aboard" }).click();
  await page.getByText("This phone is").waitFor();
  await page.goto(`${url}/#/lines/instruments`);
  await page.evaluate((bare) => {
    const place = document.body.appendChild(document.createElement("p"));
    place.id = "bare";
    new EventSource(bare).onmessage = ({ data }) => {
      place.textContent = data;
    };
  }, bare);
  const knots = (i) => (2 + (i % 20) / 10).toFixed(1);
  const sayOurs = (i) => {
    for (const socket of sockets) socket.write(sentence(`VWVHW,,T,,M,${knots(i)},N,,K`));
    return { at: "ul.prose", words: knots(i) };
  };
  const sayBare = (i) => {
    for (const ear of ears) ear.write(`data: ${knots(i)} kn\n\n`);
    return { at: "#bare", words: knots(i) };
  };
  while (sockets.size === 0 || ears.size === 0) await page.waitForTimeout(50);
  while ((await page.locator("ul.prose").count()) === 0) {
    sayOurs(19);
    await page.waitForTimeout(apart);
  }
  const times = [[], []];
  for (let i = 0; i < rounds; i++)
    for (const [which, say] of [sayOurs, sayBare].entries()) {
      await page.waitForTimeout(apart / 2 + 7 * (i % 10));
      // The page is looking before it is said.
      const words = { at: which === 0 ? "ul.prose" : "#bare", words: knots(i) };
      const frame = page.evaluate(drawn, words);
      await page.evaluate(() => undefined);
      const from = performance.timeOrigin + performance.now();
      say(i);
      times[which].push((await frame) - from);
    }
  await app.close();
  for (const one of [...sockets, ...ears]) one.destroy();
  gateway.close();
  echo.close();
  await stop();
  const [ours, theirs] = times.map((all) => median(all));
  console.log("\nA sentence of the instruments, sent to drawn, by turns on one page");
  row("bare echo by server-sent events, median", ms(theirs));
  row("through the box, median (budget: 250 ms)", ms(ours));
  row("95th of 100", ms([...times[0]].sort((a, b) => a - b)[Math.floor(0.95 * rounds)]));
  row("ratio (budget: 1.5)", (ours / theirs).toFixed(2));
}
