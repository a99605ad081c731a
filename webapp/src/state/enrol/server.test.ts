import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { expect, it, vi } from "vitest";
import { devices, lookWhoAsks, openInvitations } from "./server";

it("what an older app calls the home screen is still told by name", async () => {
  const phone = {
    device: "0197c3a0-0000-7000-8000-000000000001",
    name: "Ann",
    role: "mate",
    enrolled: 1,
    lastSeen: null,
    revoked: null,
    missing: 0,
    ready: { lacks: ["home", "storage"], told: 2 },
  };
  vi.stubGlobal("fetch", async () => Response.json({ devices: [phone] }));
  const [read] = await devices();
  expect(read?.ready?.lacks).toEqual(["install", "storage"]);
});

it("an older server lists all that wait, and says nothing of how a phone came aboard", async () => {
  vi.stubGlobal("fetch", async () => Response.json({ asks: [], blocked: 0 }));
  expect(await lookWhoAsks()).toEqual({ asks: [], more: 0, blocked: 0 });
});

it("reads an invitation of before it was known who made it", async () => {
  const one = { invitation: "i", role: "mate", made: null, ends: 5, uses: 2 };
  vi.stubGlobal("fetch", async () => Response.json({ invitations: [one] }));
  expect(await openInvitations()).toEqual([{ ...one, trip: undefined, maker: undefined }]);
});

it("brings a trip that the boat's server has not got before it binds a guest to it, and asks once more", async () => {
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  vi.stubGlobal("navigator", {});
  vi.resetModules();
  const { Failed, invite } = await import("./server");
  const { you } = await import("../log/log");
  you.value = { device: "me", name: "Ann", role: "skipper", may: ["invite"] };
  const asked: string[] = [];
  let brings = true;
  vi.stubGlobal("fetch", async (path: string) => {
    const has = asked.includes("/api/exchange") && brings;
    asked.push(path);
    if (path === "/api/exchange") return new Response("", { status: 503 });
    return has
      ? Response.json({ qr: "q", ends: 5 })
      : Response.json({ code: "trip", text: "" }, { status: 409 });
  });
  const wanted = { role: "guest", trip: "t", hours: 1, uses: 1 } as const;
  expect(await invite(wanted)).toMatchObject({ qr: "q" });
  expect(asked).toEqual(["/api/invitations", "/api/exchange", "/api/invitations"]);
  // Where the exchange brings nothing it is said, and not asked for ever.
  asked.length = 0;
  brings = false;
  await expect(invite(wanted)).rejects.toBeInstanceOf(Failed);
  expect(asked).toEqual(["/api/invitations", "/api/exchange", "/api/invitations"]);
});
