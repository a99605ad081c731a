// Puts a .br and a .gz in the place of every file of the built app that gets smaller by it, of the large ones a .br
// alone: the server makes the plain file from the .br for the rare client that takes neither. No window is larger than its
// file: whoever unpacks it keeps so much memory.
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const dist = join(import.meta.dirname, "../../embed/dist");
const compressible = /\.(html|js|css|wasm|bin|svg|webmanifest)$/;
/**
 * Browsers that keep the app take brotli, as they load it over https: a second copy of these would only be weight. Over
 * plain http the way in takes them as they are, from a server on the same network.
 */
const large = (name, plain) => /\.(wasm|bin)$/.test(name) || plain.length > 100_000;
/** In bits; brotli itself keeps 16 bytes of it. */
const windowFor = (size) =>
  Math.min(
    Math.max(Math.ceil(Math.log2(size + 16)), constants.BROTLI_MIN_WINDOW_BITS),
    constants.BROTLI_MAX_WINDOW_BITS,
  );

/**
 * How long the blocks are, and which distances have codes of their own: of the ways that brotli has, those that were smallest
 * of our files, after its own choice. All of them would take minutes of the module.
 */
const ways = [
  [0, 0, 0],
  [17, 3, 64],
  [17, 2, 32],
  [16, 1, 30],
  [16, 0, 8],
  [17, 0, 12],
  [17, 0, 4],
];

function smallest(plain) {
  const all = ways.slice(0, plain.length > 1_000_000 ? 2 : ways.length).map(([block, postfix, direct]) =>
    brotliCompressSync(plain, {
      params: {
        [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
        [constants.BROTLI_PARAM_LGWIN]: windowFor(plain.length),
        [constants.BROTLI_PARAM_SIZE_HINT]: plain.length,
        [constants.BROTLI_PARAM_LGBLOCK]: block,
        [constants.BROTLI_PARAM_NPOSTFIX]: postfix,
        [constants.BROTLI_PARAM_NDIRECT]: direct,
      },
    }),
  );
  return all.reduce((best, one) => (one.length < best.length ? one : best));
}

for (const name of readdirSync(dist, { recursive: true })) {
  if (!compressible.test(name)) continue;
  const path = join(dist, name);
  const plain = readFileSync(path);
  const br = smallest(plain);
  if (br.length >= plain.length) continue;
  writeFileSync(`${path}.br`, br);
  const gz = gzipSync(plain, { level: 9 });
  if (!large(name, plain) && gz.length < plain.length) writeFileSync(`${path}.gz`, gz);
  rmSync(path);
}
