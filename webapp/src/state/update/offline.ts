/**
 * The page's side of the service worker: has it installed, and knows whether a newer version lies ready. A
 * newer version is never put in use by itself: only a tap does that.
 */
import { computed, signal } from "@preact/signals";
import { formOpen } from "../../base/shell/pages";
import { type Kit, languageUrl, note, type ToServiceWorker } from "../../base/sw/messages";
import { text } from "../../base/text/text";
import { atSea } from "../log/log";

/** What the service worker says it has; undefined until it answers. */
export const kit = signal<Kit | undefined>(undefined);

export const controlled = signal(false);

export const newerReady = signal(false);

/** Not while a trip runs, and not in the middle of a form: loading would lose what is half typed. */
export const updateOffered = computed(() => newerReady.value && !atSea.value && !formOpen.value);

let registration: ServiceWorkerRegistration | undefined;

export async function goOffline(): Promise<void> {
  const { serviceWorker } = navigator;
  if (!serviceWorker) return;
  controlled.value = serviceWorker.controller !== null;
  // Before the worker looks which words belong to the whole.
  await caches
    .open(note)
    .then((cache) => cache.put(languageUrl, new Response(text.language)))
    .catch(() => undefined);
  serviceWorker.addEventListener("controllerchange", () => {
    controlled.value = serviceWorker.controller !== null;
    look();
  });
  try {
    registration = await serviceWorker.register("/sw.js", { updateViaCache: "none" });
  } catch {
    // No network, or refused: what is installed already goes on serving.
    registration = await serviceWorker.getRegistration();
  }
  registration?.addEventListener("updatefound", () => {
    const coming = registration?.installing;
    coming?.addEventListener("statechange", () => {
      if (coming.state === "installed" || coming.state === "activated") look();
    });
  });
  look();
}

/** Asks the newest service worker what it has. */
export async function look(): Promise<void> {
  const newest = registration?.waiting ?? registration?.active;
  if (!newest) return;
  const answer = await tell<Kit>(newest, "what do you have?");
  kit.value = answer;
  newerReady.value = answer.version !== answer.inUse && answer.missing === 0;
}

/** Asks the server whether it has a newer version, and waits until all of that is here; false: it is out of reach. */
export async function lookForNewer(): Promise<boolean> {
  if (!registration) return false;
  try {
    await registration.update();
  } catch {
    return false;
  }
  const coming = registration.installing;
  if (coming)
    await new Promise<void>((done) => {
      coming.addEventListener("statechange", () => {
        if (coming.state !== "installing") done();
      });
    });
  await look();
  return true;
}

/** Puts the newer version in use and loads it. */
export async function acceptUpdate(): Promise<void> {
  const newest = registration?.waiting ?? registration?.active;
  if (!newest) return;
  await tell(newest, "be in use");
  location.reload();
}

function tell<T>(worker: ServiceWorker, message: ToServiceWorker): Promise<T> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => done(data as T);
    worker.postMessage(message, [port2]);
  });
}
