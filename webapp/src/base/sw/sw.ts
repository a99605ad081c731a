/**
 * The service worker: keeps every file of the app, all of one version or none, and serves pages from what it
 * keeps. Which version is in use is written down apart (a small cache of its own) and changed only when the
 * person says so; a newer worker that the browser starts by itself goes on serving the version in use. The words of
 * another language belong to the whole only on phones that use it; the tables of tide and current come after it.
 */
import { type Kit, languageUrl, note, type ToServiceWorker } from "./messages";
import { languageOf } from "./words";

declare const self: ServiceWorkerGlobalScope & {
  __WB_MANIFEST: { url: string; integrity?: string }[];
};

/** The build lists one file a second time without its hash. */
const files = self.__WB_MANIFEST.flatMap(({ url, integrity }) => (integrity ? [{ url, integrity }] : []));
const version = hashOf(files.map((file) => `${file.url} ${file.integrity}`).join("\n"));
const prefix = "wirewake-files-";
const own = prefix + version;

/** A short name for a text (FNV-1a, twice 32 bits). Integrity is checked by the browser, file by file. */
function hashOf(text: string): string {
  return [0x811c9dc5, 0x01000193]
    .map((seed) => {
      let hash = seed;
      for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
      return (hash >>> 0).toString(16).padStart(8, "0");
    })
    .join("");
}

const noteUrl = new URL("/in-use", self.location.href).href;

async function inUse(): Promise<string | undefined> {
  const written = await (await caches.open(note)).match(noteUrl);
  return written?.text();
}

async function use(chosen: string): Promise<void> {
  await (await caches.open(note)).put(noteUrl, new Response(chosen));
}

/** The files that this phone needs. */
async function needed(): Promise<typeof files> {
  const spoken = await (await caches.open(note)).match(languageUrl);
  const language = await spoken?.text();
  return files.filter(({ url }) => [undefined, language].includes(languageOf(url)));
}

/** A file of this version, checked against its hash. */
async function get({ url, integrity }: (typeof files)[number]): Promise<Response> {
  const response = await fetch(url, { cache: "no-cache", integrity, credentials: "same-origin" });
  if (!response.ok) throw new Error(`${url}: ${response.status}`);
  return response;
}

/** The app is whole without them, and they are not waited for. */
const comesAfter = (url: string) => url.startsWith("tides/");

/** Fetches every file that is needed and not here. */
async function complete(first: boolean): Promise<void> {
  const cache = await caches.open(own);
  const all = await needed();
  await Promise.all(
    all
      .filter(({ url }) => !(first && comesAfter(url)))
      .map(async (file) => {
        if (!(await cache.match(file.url))) await cache.put(file.url, await get(file));
      }),
  );
}

let last: Promise<unknown> = Promise.resolve();

/** One after the other: the next finds what the last has fetched. */
function completed(): Promise<void> {
  const next = last.then(() => complete(false));
  last = next.catch(() => undefined);
  return next;
}

/** Nothing is kept unless all of it came. */
async function install(): Promise<void> {
  try {
    await complete(true);
  } catch (fault) {
    await caches.delete(own);
    throw fault;
  }
  // The first version of all is in use at once; so is one whose forerunner the browser has thrown away.
  const current = await inUse();
  if (!current || !(await caches.has(prefix + current))) await use(version);
}

/**
 * Lets go of all versions but the one in use and its own. Not while other pages are open than the one that asked for it: they
 * go on with the version that they began with, and have not opened all of its rooms. Then the next version's worker does it.
 */
async function tidy(): Promise<void> {
  const open = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  if (open.length > 1) return;
  const keep = [own, prefix + (await inUse()), note];
  for (const name of await caches.keys()) if (!keep.includes(name)) await caches.delete(name);
}

async function kit(): Promise<Kit> {
  const cache = await caches.open(own);
  const all = await needed();
  const kept = await Promise.all(all.map(({ url }) => cache.match(url)));
  return {
    version,
    inUse: (await inUse()) ?? version,
    files: all.length,
    missing: kept.filter((response) => !response).length,
  };
}

/** The version the page now loading began with; all its files are of that one. */
let loading: Promise<string | undefined> | undefined;

async function serve(request: Request): Promise<Response> {
  const page = request.mode === "navigate";
  if (page || !loading) loading = inUse();
  const wanted = page ? "/index.html" : request;
  for (const chosen of [await loading, version]) {
    const kept = await caches.match(wanted, {
      cacheName: prefix + chosen,
      ignoreSearch: true,
      ignoreVary: true,
    });
    if (kept) return kept;
  }
  const file = files.find(({ url }) => new URL(url, self.location.href).href === request.url);
  // A page goes on with the version that it began with until it is loaded anew.
  if (!file) return (await caches.match(request, { ignoreSearch: true, ignoreVary: true })) ?? fetch(request);
  // The words of a language that has just been chosen.
  const response = await get(file);
  await (await caches.open(own)).put(file.url, response.clone());
  return response;
}

self.addEventListener("install", (event) => event.waitUntil(install()));

self.addEventListener("activate", (event) => event.waitUntil(tidy().then(() => self.clients.claim())));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  // What the server answers afresh each time is not the app's to keep.
  const servers = /^\/(api|healthz)(\/|$)/.test(url.pathname);
  if (request.method === "GET" && url.origin === self.location.origin && !servers) {
    event.respondWith(serve(request));
  }
});

self.addEventListener("message", (event) => {
  const reply = (answer: unknown) => event.ports[0]?.postMessage(answer);
  const work = async (message: ToServiceWorker) => {
    if (message === "be in use") {
      await use(version);
      await self.skipWaiting();
      await tidy();
    }
    const now = await kit();
    // A language may have been chosen since.
    reply(now.missing === 0 ? now : await completed().then(kit, () => now));
  };
  event.waitUntil(work(event.data as ToServiceWorker));
});
