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

/** A server to which a phone comes: gives no answer, says no, or takes it. Tells under which keys it came. */
async function comes(
  ...tries: [secret: string, name: string, what: "lost" | "name" | "invitation" | "taken"][]
) {
  const keys: string[] = [];
  let what = "";
  vi.stubGlobal("fetch", async (path: string, init?: RequestInit) => {
    if (path !== "/api/enrol") return new Response("", { status: 503 });
    const { key, name } = JSON.parse(String(init?.body));
    keys.push(key);
    if (what === "lost") throw new TypeError("no answer");
    if (what !== "taken") return Response.json({ code: what, text: "No." }, { status: 403 });
    return Response.json({ device: "0197c3a0-0000-8000-8000-000000000002", name, role: "mate", may: [] });
  });
  for (const [invitation, name, comesOf] of tries) {
    what = comesOf;
    // The app may have been loaded anew between two tries.
    vi.resetModules();
    const { enrol } = await import("./join");
    await enrol({ invitation }, name).catch(() => undefined);
  }
  return keys.map((key) => keys.indexOf(key));
}

it("comes once more with the same key where the answer was lost, and with another for all else", async () => {
  expect(await comes(["a", "Ann", "lost"], ["a", "Ann", "lost"], ["a", "Ann", "taken"])).toEqual([0, 0, 0]);
  // Taken, or refused, the next time is another phone's.
  expect(await comes(["a", "Ann", "taken"], ["a", "Ann", "taken"])).toEqual([0, 1]);
  expect(await comes(["a", "Ann", "invitation"], ["a", "Ann", "taken"])).toEqual([0, 1]);
  expect(await comes(["a", "Ann", "lost"], ["a", "Bea", "lost"], ["b", "Bea", "taken"])).toEqual([0, 1, 2]);
});

it("keeps no invitation on the disk", async () => {
  await comes(["kBqYQm0r1pPZ0tZ4VbHn9w", "Ann", "lost"]);
  const { book } = await import("../log/log");
  const kept = await book.meta("coming");
  expect(kept?.by).toMatch(/^[0-9a-f]{64}$/);
  expect(JSON.stringify({ ...kept, key: kept?.key.public })).not.toContain("kBqYQm0r1pPZ0tZ4VbHn9w");
});
