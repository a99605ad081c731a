/** What a phone is given so that it trusts the boat's own authority, as files. */
import { writeFileSync } from "node:fs";
import { once } from "node:events";
import { join } from "node:path";
import { connect } from "node:tls";
import type { Server } from "../e2e/server";

export interface Trusted {
  /** The authority's certificate, for engines with a list of authorities for each profile. */
  root: string;
  /** The server's certificate, for those that take only the system's authorities. */
  leaf: string;
}

export async function trusted(server: Server, folder: string): Promise<Trusted> {
  const root = join(folder, "root.crt");
  const answer = await fetch(`${server.url}/boat.crt`);
  writeFileSync(root, Buffer.from(await answer.arrayBuffer()));

  const leaf = join(folder, "leaf.crt");
  const line = connect({ host: "localhost", port: server.port, servername: "localhost", rejectUnauthorized: false });
  await once(line, "secureConnect");
  const { raw } = line.getPeerCertificate();
  line.destroy();
  writeFileSync(leaf, `-----BEGIN CERTIFICATE-----\n${raw.toString("base64")}\n-----END CERTIFICATE-----\n`);
  return { root, leaf };
}
