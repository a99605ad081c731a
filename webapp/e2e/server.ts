/** The real server, from the built binary, on a port of its own. */
import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";

const root = join(import.meta.dirname, "../..");
const binary = join(root, "bin/wirewake");

export interface Server {
  url: string;
  port: number;
  /** An invitation from the terminal: the part of the link after “#”. */
  invite(role: string, ...more: string[]): string;
  /** Says yes in the terminal to the phone that shows a word. */
  welcome(word: string, role: string): void;
  /** Whoever asks to come aboard has asked so many minutes earlier, for the server. */
  olderAsks(minutes: number): void;
  /** Copies the boat's authority to a folder. */
  copyAuthority(to: string): void;
  /** What a command of the terminal prints about what it keeps. */
  terminal(command: string, ...more: string[]): string;
  /** The printed sheet, as the terminal makes it. */
  placard(network: { ssid: string; password: string }, ...more: string[]): string;
  /** Ends it for a while, as when the boat leaves the marina; restart brings it back. */
  pause(): Promise<void>;
  /** Ends it and starts it anew over the same data, at the same address. */
  restart(): Promise<void>;
  stop(): Promise<void>;
  /** Copies what it keeps, as the terminal does; what is given back puts that copy in the place of what is there then. */
  backup(): () => Promise<void>;
}

/** Starts it, with further flags if given; PORT in them is the one it listens at. */
export const startServer = (...flags: string[]): Promise<Server> => serve(newData(), flags);

/** Starts it where phones trust its authority already: the one in that folder. */
export async function startServerOf(authority: string): Promise<Server> {
  const data = newData();
  cpSync(authority, join(data, "authority"), { recursive: true });
  return serve(data, []);
}

const newData = () => mkdtempSync(join(tmpdir(), "wirewake-"));

async function serve(data: string, flags: string[]): Promise<Server> {
  const port = await freePort();
  const more = flags.map((flag) => flag.replace("PORT", String(port)));
  let told = "";
  let copies = 0;
  const run = () => {
    told = "";
    const one = spawn(binary, ["serve", "--listen", `127.0.0.1:${port}`, "--data", data, ...more], {
      stdio: ["ignore", "ignore", "pipe"],
    });
    one.stderr?.on("data", (chunk) => {
      told += chunk;
    });
    return one;
  };
  let server = run();
  const url = `http://localhost:${port}`;
  await alive(server, url);
  const end = async () => {
    if (server.exitCode !== null) return;
    const gone = new Promise((done) => server.once("exit", done));
    server.kill("SIGTERM");
    await gone;
    // Phones that hear of news are let go at once.
    if (told.includes("stopped before every answer was sent")) throw new Error(told);
  };
  return {
    url,
    port,
    invite(role, ...more) {
      const said = execFileSync(binary, ["invite", "--role", role, "--data", data, ...more], {
        encoding: "utf8",
      });
      const [found] = /#join=\S+/.exec(said) ?? [];
      if (!found) throw new Error(`no invitation in: ${said}`);
      return found;
    },
    welcome(word, role) {
      execFileSync(binary, ["welcome", word, "--role", role, "--data", data]);
    },
    olderAsks(minutes) {
      const flags = ["run", "-buildvcs=false", "./server/harness/older", data, `${minutes}m`];
      execFileSync("go", flags, { cwd: root });
    },
    copyAuthority: (to) => cpSync(join(data, "authority"), to, { recursive: true }),
    terminal: (command, ...more) =>
      execFileSync(binary, [command, "--data", data, ...more], { encoding: "utf8" }),
    placard: ({ ssid, password }, ...more) =>
      execFileSync(binary, ["placard", "--ssid", ssid, "--password", "-", "--data", data, ...more], {
        encoding: "utf8",
        input: `${password}\n`,
      }),
    pause: end,
    async restart() {
      await end();
      server = run();
      await alive(server, url);
    },
    async stop() {
      await end();
      rmSync(data, { recursive: true, force: true });
    },
    backup() {
      const file = join(data, `copy-${copies++}.tar`);
      execFileSync(binary, ["backup", file, "--data", data]);
      return async () => {
        await end();
        execFileSync(binary, ["restore", file, "--data", data]);
        server = run();
        await alive(server, url);
      };
    },
  };
}

async function alive(server: ChildProcess, url: string): Promise<void> {
  let said = "";
  server.stderr?.on("data", (chunk) => {
    said += chunk;
  });
  for (let tries = 0; tries < 3000; tries++) {
    if (server.exitCode !== null) throw new Error(`the server ended: ${said}`);
    const answer = await fetch(`${url}/healthz`).catch(() => undefined);
    if (answer?.ok) return;
    await new Promise((done) => setTimeout(done, 10));
  }
  throw new Error(`the server does not answer: ${said}`);
}

export function freePort(): Promise<number> {
  return new Promise((done) => {
    const probe = createServer().listen(0, "127.0.0.1", () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => done(port));
    });
  });
}
