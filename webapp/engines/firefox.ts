/** Firefox without a window, led by the protocol that it speaks itself: WebDriver's commands over a plain socket. */
import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { connect, type Socket } from "node:net";
import { join } from "node:path";
import { type Command, type Driver, Refused } from "./driver";
import { said } from "./said";

const names: { [command in Command]: string } = {
  go: "WebDriver:Navigate",
  run: "WebDriver:ExecuteScript",
  tap: "WebDriver:ElementClick",
  type: "WebDriver:ElementSendKeys",
  resize: "WebDriver:SetWindowRect",
  picture: "WebDriver:TakeScreenshot",
};

const preferences = {
  "marionette.port": 0,
  "toolkit.legacyUserProfileCustomizations.stylesheets": true,
  // The browser's own errands go to a proxy that is not there; what is on this machine needs none.
  "network.proxy.type": 1,
  "network.proxy.http": "127.0.0.1",
  "network.proxy.http_port": 9,
  "network.proxy.ssl": "127.0.0.1",
  "network.proxy.ssl_port": 9,
};

/** No bars around the page, so that the window is as narrow as a phone. */
const furniture = ":root { min-width: 0 !important } #navigator-toolbox { display: none !important }";

/** Every fault that pages have put on the console, by the browser's own record of it, without the browser's own. */
const faults = `
  const storage = Cc["@mozilla.org/consoleAPI-storage;1"].getService(Ci.nsIConsoleAPIStorage);
  return [
    ...Services.console.getMessageArray()
      .filter((m) => m instanceof Ci.nsIScriptError && !(m.flags & Ci.nsIScriptError.warningFlag))
      .map((m) => [m.sourceName, m.errorMessage]),
    ...storage.getEvents()
      .filter((m) => m.level === "error")
      .map((m) => [m.filename, m.arguments.map(String).join(" ")]),
  ].filter(([source]) => !/^(chrome|resource|moz-)/.test(source)).map((told) => told.join(": "));`;

/** The profile trusts the boat's own authority, whose certificate is the file root. */
export async function firefox(profile: string, root: string): Promise<Driver> {
  if (!existsSync(join(profile, "cert9.db")))
    for (const act of [
      ["-N", "--empty-password"],
      ["-A", "-n", "boat", "-t", "C,,", "-i", root],
    ])
      execFileSync("certutil", ["-d", `sql:${profile}`, ...act]);
  const lines = Object.entries(preferences).map(
    ([name, value]) => `user_pref("${name}", ${JSON.stringify(value)});`,
  );
  writeFileSync(join(profile, "user.js"), lines.join("\n"));
  mkdirSync(join(profile, "chrome"), { recursive: true });
  writeFileSync(join(profile, "chrome/userChrome.css"), furniture);

  const flags = ["--marionette", "--remote-allow-system-access", "--headless", "--no-remote"];
  const browser = spawn("firefox-esr", [...flags, "--profile", profile, "about:blank"], {
    stdio: ["ignore", "pipe", "ignore"],
  });
  const [, port] = await said(browser, browser.stdout, /Listening on port (\d+)/);
  const send = spoken(connect(Number(port), "127.0.0.1"));
  await send("WebDriver:NewSession", { capabilities: {} });
  return {
    send: (command, parameters, id) => send(names[command], { ...parameters, ...(id && { id }) }),
    async quit() {
      await send("Marionette:SetContext", { value: "chrome" });
      const told = (await send("WebDriver:ExecuteScript", { script: faults, args: [] })) as string[];
      const gone = once(browser, "exit");
      await send("Marionette:Quit", { flags: ["eAttemptQuit"] });
      await gone;
      return told;
    },
  };
}

type Answer = [type: number, id: number, fault: { error: string; message: string } | null, result: unknown];

/** Messages are JSON with their length before: 15:[0,1,"name",{}]. The first one is a greeting. */
function spoken(socket: Socket): (name: string, parameters: object) => Promise<unknown> {
  const waiting = new Map<number, { done: (value: unknown) => void; fail: (why: Error) => void }>();
  let heard = Buffer.alloc(0);
  socket.on("data", (chunk) => {
    heard = Buffer.concat([heard, chunk]);
    for (;;) {
      const colon = heard.indexOf(":");
      const end = colon + 1 + Number(heard.subarray(0, colon));
      if (colon < 0 || heard.length < end) return;
      const message: Answer | object = JSON.parse(heard.toString("utf8", colon + 1, end));
      heard = heard.subarray(end);
      if (Array.isArray(message)) take(message as Answer);
    }
  });
  const take = ([, id, fault, result]: Answer) => {
    const asked = waiting.get(id);
    waiting.delete(id);
    if (fault) asked?.fail(new Refused(fault.error, fault.message));
    // Some results stand in an object by themselves, as the protocol over HTTP has them all.
    else asked?.done(result instanceof Object && "value" in result ? result.value : result);
  };
  socket.on("close", () => {
    for (const { fail } of waiting.values()) fail(new Error("Firefox has ended."));
  });
  let last = 0;
  return (name, parameters) =>
    new Promise((done, fail) => {
      const id = ++last;
      waiting.set(id, { done, fail });
      const message = JSON.stringify([0, id, name, parameters]);
      socket.write(`${Buffer.byteLength(message)}:${message}`);
    });
}
