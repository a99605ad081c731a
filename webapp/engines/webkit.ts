/** WebKitGTK in a window of its own, on a screen that nobody sees, led by its driver over HTTP. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import type { Readable } from "node:stream";
import { expect } from "@playwright/test";
import { freePort } from "../e2e/server";
import { type Command, type Driver, Refused } from "./driver";
import { said } from "./said";

const paths: { [command in Command]: [method: "GET" | "POST", path: string] } = {
  go: ["POST", "url"],
  run: ["POST", "execute/sync"],
  tap: ["POST", "click"],
  type: ["POST", "value"],
  resize: ["POST", "window/rect"],
  picture: ["GET", "screenshot"],
};

/** The most that a command may take, in ms, until it is given up. */
const longest = 60_000;

const window = join(import.meta.dirname, "window.js");

export async function webkit(profile: string): Promise<Driver> {
  const screen = spawn("Xvfb", ["-displayfd", "3", "-screen", "0", "1300x900x24", "-nolisten", "tcp"], {
    stdio: ["ignore", "ignore", "ignore", "pipe"],
  });
  const [display] = await said(screen, screen.stdio[3] as Readable, /\d+/);

  const port = await freePort();
  const driver = spawn("WebKitWebDriver", [`--port=${port}`], {
    stdio: ["ignore", "ignore", "pipe"],
    // The leader of a group, in which the window and the engine's processes are too.
    detached: true,
    env: { ...process.env, DISPLAY: `:${display}`, WEBKIT_DISABLE_COMPOSITING_MODE: "1" },
  });
  let told = "";
  driver.stderr.setEncoding("utf8").on("data", (chunk) => {
    told += chunk;
  });
  const url = `http://127.0.0.1:${port}`;
  await expect(() => fetch(`${url}/status`)).toPass();

  // By lines: what waits to be written when it ends would be lost.
  const args = ["-oL", "gjs", "-m", window, profile];
  const options = { "webkitgtk:browserOptions": { binary: "/usr/bin/stdbuf", args } };
  const opened = await ask(`${url}/session`, "POST", { capabilities: { alwaysMatch: options } });
  const session = `${url}/session/${(opened as { sessionId: string }).sessionId}`;
  return {
    send(command, parameters, element) {
      const [method, path] = paths[command];
      return ask([session, ...(element ? ["element", element] : []), path].join("/"), method, parameters);
    },
    async quit() {
      // As a phone ends an app. Led to its end by the driver, the window now and then stays.
      const closed = once(driver, "close");
      process.kill(-(driver.pid as number));
      await closed;
      screen.kill();
      return told.split("\n").filter((line) => /CONSOLE (\w+ )?ERROR /.test(line));
    },
  };
}

async function ask(url: string, method: "GET" | "POST", body?: object): Promise<unknown> {
  const signal = AbortSignal.timeout(longest);
  const answer = await fetch(url, {
    method,
    signal,
    ...(method === "POST" && { body: JSON.stringify(body) }),
  });
  const { value } = (await answer.json()) as { value: { error: string; message: string } };
  if (!answer.ok) throw new Refused(value.error, value.message);
  return value;
}
