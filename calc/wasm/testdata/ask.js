// Asks the module every question on standard input, and writes the replies.
//   node ask.js wasm_exec.js calc.wasm stations.bin
const fs = require("node:fs");

const [loader, module_, stations] = process.argv.slice(2);
require(loader);

(async () => {
  const go = new globalThis.Go();
  const { instance } = await WebAssembly.instantiate(fs.readFileSync(module_), go.importObject);
  go.run(instance);
  if (stations) process.stderr.write(globalThis.wirewakeStations(fs.readFileSync(stations)));
  const asks = JSON.parse(fs.readFileSync(0, "utf8"));
  const replies = asks.map(({ name, request }) => globalThis.wirewakeDesk(name, request));
  process.stdout.write(JSON.stringify(replies), () => process.exit(0));
})();
