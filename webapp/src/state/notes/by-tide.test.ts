import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, fakeWorker } from "../../base/desk/fake-worker";
import type { Hour, Hours, Moments } from "../../base/desk/types/day.gen";
import type { Stored } from "../entry/entry";

const place = { lat: 41.2, lon: -71.5 };
const hours = 3600;

let asked: Asked[];
let entries: Stored[];

/** By the test's own tide: high water at 0, low water six hours after. */
const hourAt = (time: number): Hour => {
  const since = time % (12 * hours);
  const low = since >= 6 * hours;
  return {
    tide: { last: low ? "low water" : "high water", since: low ? since - 6 * hours : since },
    sky: "day",
  } as Hour;
};

beforeEach(() => {
  vi.resetModules();
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  asked = [];
  entries = [];
  vi.stubGlobal(
    "Worker",
    fakeWorker(
      {
        moments: ({ moments }: Moments) => ({ hours: moments.map(({ time }) => hourAt(time)) }) as Hours,
      },
      asked,
    ),
  );
});
afterEach(() => vi.unstubAllGlobals());

let n = 0;
const note = (kind: string, at: number, set: object, record = `r${n + 1}`): string => {
  n += 1;
  entries.push({ id: `e${n}`, record, kind, trip: "t", n, no: n, at, set, own: true } as unknown as Stored);
  return record;
};

async function byTide() {
  const { book } = await import("../log/log");
  vi.spyOn(book, "entriesOfKinds").mockImplementation(async (kinds) =>
    entries.filter(({ kind }) => kinds.includes(kind)),
  );
  return (await import("./by-tide")).hookupsByTide(place);
}

it("counts the hookups about a place by the hour after high or low water", async () => {
  for (const h of [1.2, 1.9, 13.5, 7.1]) note("mark", h * hours * 1000, place);
  // Not: what was struck out, what has no place, what is of another ground, and what is no hookup.
  const struck = note("mark", 2.5 * hours * 1000, place);
  entries.push({
    id: "s",
    record: struck,
    kind: "mark",
    trip: "t",
    n: 99,
    no: 99,
    at: 1,
    strike: true,
    own: true,
  } as unknown as Stored);
  note("mark", 2.5 * hours * 1000, {});
  note("mark", 2.5 * hours * 1000, { lat: 41.6, lon: -71.5 });
  note("touch", 2.5 * hours * 1000, place);
  expect(await byTide()).toEqual([
    { turn: "high water", hour: 1, count: 3 },
    { turn: "low water", hour: 1, count: 1 },
  ]);
});

it("asks nothing where there are none, and no more at once than the desk takes", async () => {
  expect(await byTide()).toEqual([]);
  expect(asked).toEqual([]);
  for (let i = 0; i < 130; i++) note("mark", i * 1000, place);
  expect(await byTide()).toEqual([{ turn: "high water", hour: 0, count: 100 }]);
});
