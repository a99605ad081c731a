/** Several phones that trust the boat's authority, in one browser, and the boat's server over https. */
import { type Browser, chromium } from "@playwright/test";
import { chromiumPath } from "../tools/chromium.mjs";
import { boatName, NetPhone } from "./boatnet";
import { type Server, startServer } from "./server";

export interface SecureBoat {
  server: Server;
  browser: Browser;
  end(): Promise<void>;
}

export async function secureBoat(): Promise<SecureBoat> {
  const plain = await startServer();
  const all = new NetPhone();
  await all.trust(plain.port);
  const browser = await chromium.launch({
    executablePath: chromiumPath,
    args: ["--no-sandbox", `--host-resolver-rules=MAP ${boatName} 127.0.0.1`],
    env: { ...process.env, HOME: all.home },
  });
  return {
    server: { ...plain, url: `https://${boatName}:${plain.port}` },
    browser,
    async end() {
      await browser.close();
      await plain.stop();
      await all.close();
    },
  };
}
