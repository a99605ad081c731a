import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";

const home = "https://boat.test/";
type Named = string | { url: string };
const urlOf = (of: Named): string => new URL(typeof of === "string" ? of : of.url, home).href;

class Store {
  readonly kept = new Map<string, string>();
  async match(of: Named): Promise<Response | undefined> {
    const text = this.kept.get(urlOf(of));
    return text === undefined ? undefined : new Response(text);
  }
  async put(of: Named, response: Response): Promise<void> {
    this.kept.set(urlOf(of), await response.text());
  }
}

/** What the browser keeps of the site, whichever worker runs. */
class Stores {
  readonly all = new Map<string, Store>();
  async open(name: string): Promise<Store> {
    const store = this.all.get(name) ?? new Store();
    this.all.set(name, store);
    return store;
  }
  has = async (name: string) => this.all.has(name);
  keys = async () => [...this.all.keys()];
  delete = async (name: string) => this.all.delete(name);
  async match(of: Named, { cacheName }: { cacheName?: string }): Promise<Response | undefined> {
    for (const [name, store] of this.all) {
      const found = cacheName === undefined || name === cacheName ? await store.match(of) : undefined;
      if (found) return found;
    }
    return undefined;
  }
}

/** A build has a start page and a room, whose name says of which build it is. */
const build = (edition: number) => ({
  "index.html": `page of ${edition}`,
  [`assets/rooms-${edition}.js`]: `rooms of ${edition}`,
});

let windows = 1;
let served: { [url: string]: string } = {};

/** A worker of that build, as the browser has it. */
async function worker(edition: number) {
  const handlers: { [name: string]: (event: object) => void } = {};
  served = build(edition);
  vi.resetModules();
  vi.stubGlobal("self", {
    __WB_MANIFEST: Object.keys(served).map((url) => ({ url, integrity: `${url} of ${edition}` })),
    location: new URL(`${home}sw.js`),
    addEventListener: (name: string, handler: (event: object) => void) => {
      handlers[name] = handler;
    },
    clients: { matchAll: async () => Array.from({ length: windows }), claim: async () => undefined },
    skipWaiting: async () => undefined,
  });
  await import("./sw");
  const begin = async (name: string, event: object = {}) => {
    const all: Promise<unknown>[] = [];
    handlers[name]?.({ ...event, waitUntil: (what: Promise<unknown>) => all.push(what) });
    await Promise.all(all);
  };
  return {
    install: () => begin("install"),
    async accept() {
      await begin("message", { data: "be in use", ports: [{ postMessage: () => undefined }] });
      await begin("activate");
    },
    get(path: string, mode = "no-cors"): Promise<string> {
      let answer: Promise<Response> | undefined;
      const request = { method: "GET", url: urlOf(path), mode };
      handlers.fetch?.({ request, respondWith: (given: Promise<Response>) => (answer = given) });
      return (answer as Promise<Response>).then((r) => (r.ok ? r.text() : String(r.status)));
    },
  };
}

beforeEach(() => {
  windows = 1;
  vi.stubGlobal("caches", new Stores());
  vi.stubGlobal("fetch", async (of: Named) => {
    const text = served[urlOf(of).slice(home.length)];
    return text === undefined ? new Response("", { status: 404 }) : new Response(text);
  });
});
afterEach(() => vi.unstubAllGlobals());

const versions = async () =>
  (await caches.keys()).filter((name) => name.startsWith("wirewake-files-")).length;

describe("an update that is accepted", () => {
  it("leaves nothing of the version before it where no other page is open", async () => {
    await (await worker(1)).install();
    const next = await worker(2);
    await next.install();
    expect(await versions()).toBe(2);
    await next.accept();
    expect(await versions()).toBe(1);
    expect(await next.get("", "navigate")).toBe("page of 2");
  });

  it("leaves a second page the rooms that it has not opened yet", async () => {
    await (await worker(1)).install();
    const next = await worker(2);
    await next.install();
    windows = 2;
    await next.accept();
    expect(await next.get("", "navigate")).toBe("page of 2");
    expect(await next.get("assets/rooms-2.js")).toBe("rooms of 2");
    expect(await next.get("assets/rooms-1.js")).toBe("rooms of 1");

    // What was left is let go of with the next.
    windows = 1;
    const third = await worker(3);
    await third.install();
    await third.accept();
    expect(await versions()).toBe(1);
    expect(await third.get("assets/rooms-1.js")).toBe("404");
  });

  it("that is not accepted changes nothing of what is served", async () => {
    await (await worker(1)).install();
    const next = await worker(2);
    await next.install();
    expect(await next.get("", "navigate")).toBe("page of 1");
    expect(await next.get("assets/rooms-1.js")).toBe("rooms of 1");
  });
});
