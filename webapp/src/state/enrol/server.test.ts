import { expect, it, vi } from "vitest";
import { devices } from "./server";

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
