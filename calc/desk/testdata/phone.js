// Asks the phone's module the same question over and over, and writes the processor time of each round in µs: the first
// line on standard input is the request for a spread, each further line how often to ask it.
//   node phone.js wasm_exec.js calc.wasm
const fs = require("node:fs");
const readline = require("node:readline");

const [loader, module_] = process.argv.slice(2);
require(loader);

(async () => {
  const go = new globalThis.Go();
  const { instance } = await WebAssembly.instantiate(fs.readFileSync(module_), go.importObject);
  go.run(instance);
  let request;
  for await (const line of readline.createInterface({ input: process.stdin })) {
    if (!request) {
      request = line;
      continue;
    }
    const from = process.cpuUsage();
    for (let i = 0; i < Number(line); i++) {
      if (!globalThis.wirewakeDesk("spread", request).startsWith('{"answer":')) throw new Error("refused");
    }
    const { user, system } = process.cpuUsage(from);
    process.stdout.write(`${user + system}\n`);
  }
  process.exit(0);
})();
