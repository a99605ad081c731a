/** A photo on its way to the server, in parts: what has arrived is not sent again, also after weeks. */

import { isCount } from "../entry/entry";
import type { Photo } from "../log/disk/db";

/** How a part reaches the server; body is undefined to ask what is there. */
export type PutPart = (
  sha256: string,
  range: string,
  body: Blob | undefined,
  type: string,
) => Promise<Response>;

/** there: whole, on the server's disk. Else why not, by the code of the exchange; what has arrived stays. */
export type Sent = "there" | { why: string };

const partBytes = 256 * 1024;

/** After so many answers in a row that brought nothing forward, this is left for later. */
const patience = 3;

export async function sendPhoto(
  { sha256, type, bytes }: Photo,
  put: PutPart,
  part = partBytes,
): Promise<Sent> {
  const total = bytes.byteLength;
  let have: number | undefined;
  for (let idle = 0; idle < patience; ) {
    const end = Math.min((have ?? 0) + part, total);
    const response =
      have === undefined
        ? await put(sha256, `bytes */${total}`, undefined, type)
        : await put(sha256, `bytes ${have}-${end - 1}/${total}`, new Blob([bytes.slice(have, end)]), type);
    const { status } = response;
    if (status === 201 || status === 200) return "there";
    const said = await response.json().catch(() => undefined);
    if (status === 202 || (status === 409 && said?.code === "offset")) {
      if (!isCount(said?.have, 0) || said.have >= total) break;
      idle = said.have > (have ?? -1) ? 0 : idle + 1;
      have = said.have;
    } else if (status === 422) {
      // Thrown away there: from the beginning, but not for ever.
      if (++idle === patience) return { why: "hash" };
      have = 0;
    } else return { why: typeof said?.code === "string" ? said.code : "store" };
  }
  return { why: "store" };
}
