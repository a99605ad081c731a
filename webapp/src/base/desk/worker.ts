/**
 * The desk's worker: runs the calculations compiled to WebAssembly, one request at a time, off the screen's
 * thread. A classic worker, since that is what importScripts and older phones need.
 */
import type { FromDesk, ToDesk } from "./messages";

declare const self: DedicatedWorkerGlobalScope & {
  Go: new () => { importObject: WebAssembly.Imports; run(instance: WebAssembly.Instance): Promise<void> };
  wirewakeDesk?: (name: string, request: string) => string;
  wirewakeStations?: (table: Uint8Array) => string;
};

const say = (message: FromDesk) => self.postMessage(message);

async function start(): Promise<void> {
  // The module is large: it is compiled while its loader is still coming.
  const module = compile();
  self.importScripts("/wasm_exec.js");
  const go = new self.Go();
  const instance = await WebAssembly.instantiate(await module, go.importObject);
  // The program only ends when it has failed; until then it waits for requests.
  go.run(instance).then(
    () => say({ died: "the calculation program ended" }),
    (fault) => say({ died: String(fault) }),
  );
  if (!self.wirewakeDesk) throw new Error("the calculation program did not start");
}

async function compile(): Promise<WebAssembly.Module> {
  const response = await fetch("/calc.wasm");
  if (!response.ok) throw new Error(`calc.wasm: ${response.status}`);
  return WebAssembly.compileStreaming
    ? WebAssembly.compileStreaming(response)
    : WebAssembly.compile(await response.arrayBuffer());
}

/** What is answered from the tables of tide and current. */
const fromTables = new Set(["stations", "tide", "stream", "day", "moments"]);

/** The tables that are still to come: each is given to the calculations once, and kept by the service worker. */
const tables = new Set(["east", "west"]);

/** Not so long that the desk takes the worker for dead. */
const patience = 6000;

async function load(region: string): Promise<void> {
  try {
    const response = await fetch(`/tides/${region}.bin`, { signal: AbortSignal.timeout(patience) });
    if (!response.ok) return;
    const wrong = self.wirewakeStations?.(new Uint8Array(await response.arrayBuffer()));
    if (!wrong) tables.delete(region);
  } catch {
    // Without a network and not kept yet: the answer says so.
  }
}

const started = start();
started.then(
  () => say({ ready: true }),
  (fault) => say({ died: String(fault) }),
);

self.onmessage = async ({ data }: MessageEvent<ToDesk>) => {
  try {
    await started;
    if (fromTables.has(data.name)) await Promise.all([...tables].map(load));
    say({
      id: data.id,
      reply: (self.wirewakeDesk as NonNullable<typeof self.wirewakeDesk>)(data.name, data.request),
    });
  } catch (fault) {
    say({ died: String(fault) });
  }
};
