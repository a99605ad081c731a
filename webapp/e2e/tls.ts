/** Several phones in one browser, and the boat's server over each kind of TLS, with whoever vouches for it. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { createServer } from "node:https";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium } from "@playwright/test";
import { asked, chromiumPath } from "../tools/chromium.mjs";
import { boatName, NetPhone } from "./boatnet";
import { freePort, type Server, startServer, startServerOf } from "./server";

export interface SecureBoat {
  server: Server;
  browser: Browser;
  end(): Promise<void>;
}

/** A browser of phones that trust what is installed, where the boat's names are this computer. */
const phones = ({ home }: NetPhone) =>
  chromium.launch({
    executablePath: chromiumPath,
    args: [...asked, `--host-resolver-rules=MAP ${boatName} 127.0.0.1,MAP ${ownName} 127.0.0.1`],
    env: { ...process.env, HOME: home },
  });

/** Phones that trust an authority, for one boat after another of which it is the own. */
export interface Trusting {
  authority: string;
  browser: Browser;
  end(): Promise<void>;
}

export async function trusting(): Promise<Trusting> {
  const plain = await startServer();
  const all = new NetPhone();
  await all.trust(plain.port);
  const authority = join(all.home, "authority");
  plain.copyAuthority(authority);
  await plain.stop();
  const browser = await phones(all);
  return {
    authority,
    browser,
    async end() {
      await browser.close();
      await all.close();
    },
  };
}

/** The boat's own authority vouches. */
export async function secureBoat(known?: Trusting): Promise<SecureBoat> {
  const { authority, browser, end } = known ?? (await trusting());
  const plain = await startServerOf(authority);
  return {
    server: { ...plain, url: `https://${boatName}:${plain.port}` },
    browser,
    async end() {
      await Promise.all(browser.contexts().map((one) => one.close()));
      await plain.stop();
      if (!known) await end();
    },
  };
}

/** Nobody has to: the page is of the same computer. */
export async function localBoat(): Promise<SecureBoat> {
  const server = await startServer();
  const all = new NetPhone();
  const browser = await phones(all);
  return {
    server,
    browser,
    async end() {
      await browser.close();
      await server.stop();
      await all.close();
    },
  };
}

const ownName = "boat.test";

/** A certificate that the owner has from an authority of their own, and its key, as files. */
function certificate(folder: string): { authority: string; cert: string; key: string } {
  const file = (name: string) => join(folder, name);
  const openssl = (...args: string[]) => execFileSync("openssl", args, { cwd: folder, stdio: "ignore" });
  const key = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"];
  const asked = ["-subj", `/CN=${ownName}`, "-keyout", "boat.key", "-out", "boat.csr"];
  writeFileSync(file("ext"), `subjectAltName=DNS:${ownName}\nbasicConstraints=CA:FALSE\n`);
  openssl("req", "-x509", ...key, "-days", "30", "-subj", "/CN=Owner", "-keyout", "ca.key", "-out", "ca.pem");
  openssl("req", ...key, ...asked);
  const signed = ["-CA", "ca.pem", "-CAkey", "ca.key", "-CAcreateserial", "-days", "30", "-extfile", "ext"];
  openssl("x509", "-req", "-in", "boat.csr", ...signed, "-out", "boat.pem");
  return { authority: file("ca.pem"), cert: file("boat.pem"), key: file("boat.key") };
}

/** The owner's certificate, read by the server; or by something in front of it that speaks TLS for it. */
export async function certifiedBoat(by: "the server" | "a proxy"): Promise<SecureBoat> {
  const folder = mkdtempSync(join(tmpdir(), "wirewake-certificate-"));
  const { authority, cert, key } = certificate(folder);
  const all = new NetPhone();
  all.install(readFileSync(authority));
  const port = await freePort();
  const url = `https://${ownName}:${port}`;
  const plain =
    by === "a proxy"
      ? await startServer("--address", url)
      : await startServer("--cert", cert, "--key", key, "--address", `https://${ownName}:PORT`);
  const proxy = by === "a proxy" ? await proxyTo(plain.port, port, { cert, key }) : undefined;
  const browser = await phones(all);
  return {
    server: { ...plain, url: proxy ? url : `https://${ownName}:${plain.port}` },
    browser,
    async end() {
      await browser.close();
      proxy?.closeAllConnections();
      proxy?.close();
      await plain.stop();
      await all.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Speaks TLS, and hands everything on as it comes. */
async function proxyTo(to: number, at: number, { cert, key }: { cert: string; key: string }) {
  const proxy = createServer({ cert: readFileSync(cert), key: readFileSync(key) }, (asked, answer) => {
    const on = request(
      { host: "127.0.0.1", port: to, path: asked.url, method: asked.method, headers: asked.headers },
      (got) => {
        answer.writeHead(got.statusCode ?? 502, got.headers);
        answer.flushHeaders();
        got.pipe(answer);
      },
    );
    on.on("error", () => answer.destroy());
    answer.on("close", () => on.destroy());
    asked.pipe(on);
  });
  await new Promise<void>((done) => proxy.listen(at, "127.0.0.1", done));
  return proxy;
}
