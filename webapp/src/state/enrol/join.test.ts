import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { beforeEach, expect, it, vi } from "vitest";

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  vi.stubGlobal("navigator", {});
  vi.resetModules();
});

/** A server that knows this phone, and takes a key from it or not. */
async function look(key: () => Response, more: object = {}) {
  const device = "0197c3a0-0000-7000-8000-000000000001";
  const me = { device, name: "Ann", role: "mate", may: ["trips", "crew"], ...more };
  vi.stubGlobal("fetch", async (path: string) =>
    path === "/api/me" ? Response.json(me) : path === "/api/key" ? key() : new Response("", { status: 503 }),
  );
  const { lookWhoIAm } = await import("./join");
  const { book } = await import("../log/log");
  return { who: await lookWhoIAm(), kept: await book.meta("key"), notes: await book.meta("current"), device };
}

it("goes on aboard without a key where the server takes no more of them", async () => {
  const { who, kept, device } = await look(() =>
    Response.json({ code: "key", text: "No more." }, { status: 409 }),
  );
  expect(who.device).toBe(device);
  expect(kept).toBeUndefined();
});

it("keeps the key that the server took", async () => {
  const anew = "0197c3a0-0000-8000-8000-000000000002";
  const { who, kept } = await look(() =>
    Response.json({ device: anew, name: "Ann", role: "mate", may: ["trips", "crew"] }),
  );
  expect(who.device).toBe(anew);
  expect(kept?.public).toHaveLength(44);
});

it("notes in the trip that it was invited to, if it may see no other", async () => {
  const trip = "0197c3a0-0000-7000-8000-000000000003";
  const taken = () => Response.json({ code: "key", text: "No more." }, { status: 409 });
  expect((await look(taken, { role: "guest", may: [], trip })).notes).toBe(trip);
  vi.resetModules();
  globalThis.indexedDB = new IDBFactory();
  expect((await look(taken, { may: ["trips"], trip })).notes).toBeUndefined();
});
