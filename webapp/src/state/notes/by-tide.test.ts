import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type Asked, fakeWorker } from "../../base/desk/fake-worker";
import type { Hour, Hours, Moments } from "../../base/desk/types/day.gen";
import type { Draft } from "../entry/entry";
import { uuid } from "../entry/uuid";

const place = { lat: 41.2, lon: -71.5 };
const hours = 3600;

let asked: Asked[];
let drafts: Draft[];

const trip = uuid();

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
  drafts = [];
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

const note = (kind: string, at: number, set: object, record = uuid()): string => {
  drafts.push({ id: uuid(), record, kind, trip, prev: [], at, set: { ...set } });
  return record;
};

async function byTide() {
  const { book } = await import("../log/log");
  await book.append(drafts);
  return (await import("./by-tide")).hookupsByTide(place);
}

it("counts the hookups about a place by the hour after high or low water", async () => {
  for (const h of [1.2, 1.9, 13.5, 7.1]) note("mark", h * hours * 1000, place);
  // Not: what was struck out, what has no place, what is of another ground, and what is no hookup.
  const struck = note("mark", 2.5 * hours * 1000, place);
  drafts.push({ id: uuid(), record: struck, kind: "mark", trip, prev: [], at: 1, strike: true });
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
