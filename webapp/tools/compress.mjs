// Puts a .br and a .gz in the place of every file of the built app that gets smaller by it: the server
// makes the plain one from the .gz for the rare client that takes neither.
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const dist = join(import.meta.dirname, "../../embed/dist");
const compressible = /\.(html|js|css|wasm|bin|svg|webmanifest)$/;

for (const name of readdirSync(dist, { recursive: true })) {
  if (!compressible.test(name)) continue;
  const path = join(dist, name);
  const plain = readFileSync(path);
  const forms = {
    br: brotliCompressSync(plain, {
      params: {
        [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
        [constants.BROTLI_PARAM_LGWIN]: constants.BROTLI_MAX_WINDOW_BITS,
        [constants.BROTLI_PARAM_SIZE_HINT]: plain.length,
      },
    }),
    gz: gzipSync(plain, { level: 9 }),
  };
  for (const [ending, form] of Object.entries(forms)) {
    if (form.length < plain.length) writeFileSync(`${path}.${ending}`, form);
  }
  if (forms.gz.length < plain.length) rmSync(path);
}
