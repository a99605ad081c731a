import "fake-indexeddb/auto";
import { expect, it, vi } from "vitest";
import { writeKept } from "../store/db";
import { storageTroubles } from "../store/kept";
import { settings } from "./settings";

vi.stubGlobal("BroadcastChannel", undefined);

const early = { depth: "m", line: "fm", weight: "g", pull: "kg" } as const;

it("settings saved before temperatures had a unit are read, and given the usual one", async () => {
  await writeKept("settings", { units: early, cautionsRead: true });
  expect(await settings.load()).toBe(true);
  expect(settings.value).toEqual({ units: { ...early, temperature: "°F" }, cautionsRead: true });
  expect(storageTroubles.value).toEqual([]);
});

it("but a unit of temperature that there is not is no unit", async () => {
  await writeKept("settings", { units: { ...early, temperature: "K" }, cautionsRead: true });
  expect(await settings.load()).toBe(false);
  expect(storageTroubles.value).toEqual([{ kind: "unreadable", name: "settings" }]);
});
