// How long a sentence of the boat's instruments takes to the screen, beside a bare server that hears the same gateway and echoes
// each line by server-sent events: by turns, on one page of one browser, from when the sentence is sent until the frame with it is
// drawn.
import { execFileSync, spawn } from "node:child_process";
import { createServer } from "node:net";
import { chromium } from "@playwright/test";

/** The bare server, a process of its own as the box is; it says at which port it is. */
const echo = `
  const ears = new Set();
  require("node:net").connect(process.argv[1], "127.0.0.1").on("data", (lines) => {
    for (const ear of ears) ear.write("data: " + String(lines).trim() + "\\n\\n");
  });
  const server = require("node:http").createServer((_, reply) => {
    reply.writeHead(200, { "Content-Type": "text/event-stream", "Access-Control-Allow-Origin": "*" });
    reply.write("data: begin\\n\\n");
    ears.add(reply);
  });
  server.listen(0, "127.0.0.1", () => console.log(server.address().port));
`;

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

/** In the page: when the last event of each came, ms since 1970. */
const watch = () => {
  window.came = [];
  window.EventSource = class extends EventSource {
    constructor(address) {
      super(address);
      this.addEventListener("message", () => {
        window.came[String(address).includes("/api/") ? 0 : 1] = performance.timeOrigin + performance.now();
      });
    }
  };
};

export async function instruments(serve, { phone, browser, median, row, ms }) {
  // Who connects first is the box, the other the bare server: each is told by turns.
  const sockets = [];
  const gateway = createServer((socket) => {
    sockets.push(socket.setNoDelay(true));
    socket.on("error", () => {});
  });
  const port = await listening(gateway);
  const { url, data, binary, stop } = await serve("--instruments", `tcp://127.0.0.1:${port}`);
  while (sockets.length < 1) await new Promise((done) => setTimeout(done, 50));
  const bare = spawn(process.execPath, ["-e", echo, port], { stdio: ["ignore", "pipe", "inherit"] });
  const at = await new Promise((done) =>
    bare.stdout.once("data", (text) => done(`http://127.0.0.1:${Number(text)}`)),
  );
  while (sockets.length < 2) await new Promise((done) => setTimeout(done, 50));
  const said = execFileSync(binary, ["invite", "--role", "mate", "--data", data], { encoding: "utf8" });
  const [, invitation] = /#join=([^\s&]+)/.exec(said);
  const app = await chromium.launch(browser);
  // Else the page may hear nobody but its own server.
  const context = await app.newContext({ ...phone, bypassCSP: true, serviceWorkers: "block" });
  const page = await context.newPage();
  await page.addInitScript(watch);
  await page.goto(`${url}/#join=${invitation}`);
  await page.getByLabel("A name for this phone").fill("figures");
  // Sooner a tap is taken for an echo of the one before.
  await page.waitForTimeout(1000);
  await page.getByRole("button", { name: "Come aboard" }).click();
  await page.getByText("This phone is").waitFor();
  await page.goto(`${url}/#/lines/instruments`);
  await page.evaluate((at) => {
    const place = document.body.appendChild(document.createElement("p"));
    place.id = "bare";
    new EventSource(at).onmessage = ({ data }) => {
      place.textContent = data;
    };
  }, at);
  const knots = (i) => (2 + (i % 20) / 10).toFixed(1);
  const say = (which, i) => sockets[which].write(sentence(`VWVHW,,T,,M,${knots(i)},N,,K`));
  const places = ["ul.prose", "#bare"];
  await page.getByText("begin").waitFor();
  while ((await page.locator("ul.prose").count()) === 0) {
    say(0, 19);
    await page.waitForTimeout(apart);
  }
  const [times, came] = [
    [[], []],
    [[], []],
  ];
  for (let i = 0; i < rounds; i++)
    for (const [which, place] of places.entries()) {
      await page.waitForTimeout(apart / 2 + 7 * (i % 10));
      // The page is looking before it is said.
      const frame = page.evaluate(drawn, { at: place, words: knots(i) });
      await page.evaluate(() => undefined);
      const from = performance.timeOrigin + performance.now();
      say(which, i);
      times[which].push((await frame) - from);
      came[which].push((await page.evaluate((which) => window.came[which], which)) - from);
    }
  await app.close();
  bare.kill();
  for (const socket of sockets) socket.destroy();
  gateway.close();
  await stop();
  const [ours, theirs] = times.map((all) => median(all));
  console.log("\nA sentence of the instruments, sent to drawn, by turns on one page");
  row("bare echo by server-sent events, median", ms(theirs));
  row("through the box, median (budget: 250 ms)", ms(ours));
  row("of these until it is in the page", `${ms(median(came[1]))}, ${ms(median(came[0]))}`);
  row("95th of 100", ms([...times[0]].sort((a, b) => a - b)[Math.floor(0.95 * rounds)]));
  row("ratio (budget: 1.5)", (ours / theirs).toFixed(2));
}
