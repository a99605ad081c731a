/** Phones on the boat's network, each with its own store of certificates; the boat's name is this computer. */
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, type BrowserContextOptions, chromium } from "@playwright/test";
import { asked, chromiumPath } from "../tools/chromium.mjs";
import { prepare } from "./phone";

export const boatName = "wirewake.local";

export class NetPhone {
  readonly home = mkdtempSync(join(tmpdir(), "wirewake-phone-"));
  private context: BrowserContext | undefined;

  /** Opens its browser. */
  async open(options: BrowserContextOptions = {}): Promise<BrowserContext> {
    this.context = await chromium.launchPersistentContext(join(this.home, "profile"), {
      executablePath: chromiumPath,
      args: [...asked, `--host-resolver-rules=MAP ${boatName} 127.0.0.1`],
      env: { ...process.env, HOME: this.home },
      viewport: { width: 360, height: 740 },
      hasTouch: true,
      isMobile: true,
      ...options,
    });
    return prepare(this.context);
  }

  /** Installs the boat's certificate as a person does. */
  async trust(port: number): Promise<void> {
    const answer = await fetch(`http://localhost:${port}/boat.crt`);
    this.install(Buffer.from(await answer.arrayBuffer()));
  }

  /** Installs an authority's certificate with the tool of the browser's certificate store. */
  install(certificate: Buffer): void {
    const store = join(this.home, ".pki/nssdb");
    mkdirSync(store, { recursive: true });
    const file = join(this.home, "boat.crt");
    writeFileSync(file, certificate);
    execFileSync("certutil", ["-N", "-d", `sql:${store}`, "--empty-password"]);
    execFileSync("certutil", ["-A", "-d", `sql:${store}`, "-n", boatName, "-t", "C,,", "-i", file]);
  }

  async close(): Promise<void> {
    await this.context?.close();
    rmSync(this.home, { recursive: true, force: true });
  }
}
