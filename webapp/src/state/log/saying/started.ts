/** For the tests: the log as the app starts it, on a phone of the boat's. */
import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, vi } from "vitest";
import type { Numbered } from "../../entry/entry";
import { uuid } from "../../entry/uuid";
import type { You } from "../disk/db";

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

/** The log with all that is said of it, as a page of the app has it. */
export const theLog = async () => ({
  ...(await import("../log")),
  ...(await import("../waiting")),
  ...(await import("./say")),
  ...(await import("./writing")),
  ...(await import("./load")),
});

export type Log = Awaited<ReturnType<typeof theLog>>;

/** The modules hold the open database; each start of the app is a new set of them. */
export async function start() {
  vi.resetModules();
  const log = await theLog();
  const asks = await import("../asks");
  const { storageTroubles } = await import("../../../base/store/kept");
  await log.loadLog();
  return { ...log, ...asks, storageTroubles };
}

export const saved = (log: Awaited<ReturnType<typeof start>>) =>
  vi.waitFor(() => {
    expect(log.isSaved()).toBe(true);
  });

/** Takes what others wrote, as this phone in this role. */
export async function receive(log: Log, you: Partial<You>, entries: Partial<Numbered>[]): Promise<void> {
  const batch = await log.book.batch(0, 0);
  const since = batch.cursor.since + entries.length;
  await log.book.take(batch, {
    cursor: { epoch: "e", since, check: "", more: false },
    taken: [],
    refused: [],
    entries: entries.map((entry, i) => ({
      ...{ id: uuid(), record: uuid(), kind: "note", trip: boats, prev: [], set: { text: "x" } },
      ...{ at: Date.now(), n: i + 1, by: "ben", byName: "Ben", no: batch.cursor.since + 1 + i },
      ...entry,
    })),
    spoilt: [],
    you: { device: "d", name: "A", role: "mate", may: ["trips", "crew"], ...you },
  });
  await log.changed();
}

export const boats = "c2a9f0d4-7b1e-4f38-8e65-9d0b1a2c3f4e";
export const opened = (trip: string, set: object = {}): Partial<Numbered> => ({
  record: trip,
  kind: "trip",
  trip,
  set: { opened: Date.now(), ...set },
});
export const guest = { role: "guest", may: [] as You["may"], trip: boats };

/** So many hours later, by this phone's clock. */
export const later = (hours: number) => {
  const now = Date.now();
  vi.spyOn(Date, "now").mockReturnValue(now + hours * 3600_000);
};
