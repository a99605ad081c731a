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
