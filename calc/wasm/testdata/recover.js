// Has a module fail in each way, and writes what it says.
//   node recover.js wasm_exec.js recover.wasm
const fs = require("node:fs");

const [loader, module_] = process.argv.slice(2);
require(loader);

(async () => {
  const go = new globalThis.Go();
  const { instance } = await WebAssembly.instantiate(fs.readFileSync(module_), go.importObject);
  go.run(instance);
  process.stdout.write(JSON.stringify([0, 1, 2, 3, 4].map((way) => globalThis.fail(way))), () => process.exit(0));
})();
