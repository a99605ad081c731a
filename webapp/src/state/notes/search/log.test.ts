// @vitest-environment node
/** The search in a log that is written, amended, struck and shown in other units. */

import { IDBFactory } from "fake-indexeddb";
import { theLog } from "../../log/saying/started";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { fakeWorker } from "../../../base/desk/fake-worker";

beforeEach(() => {
  vi.resetModules();
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
  vi.stubGlobal("Worker", fakeWorker({}));
});
afterEach(() => vi.unstubAllGlobals());

async function start() {
  const log = await theLog();
  const { projected, sayIn } = await import("../../log/beside/projecting");
  const { readAhead, sayings, search } = await import("./search");
  const { settings } = await import("../../../base/units/settings");
  sayIn(sayings.value);
  await log.loadLog();
  await vi.waitFor(() => expect(projected.value).toBe(true));
  const found = async (wanted: string) => {
    const hits = [];
    for await (const some of search(log.summaries.value ?? [], wanted, new AbortController().signal))
      hits.push(...some);
    return hits.map(({ record }) => record.id);
  };
  const saved = () => vi.waitFor(() => expect(log.isSaved()).toBe(true));
  const ahead = () => readAhead(log.summaries.value ?? [], new AbortController().signal);
  return { log, found, ahead, saved, settings, sayIn, sayings, projected };
}

it("finds what was noted, amended and struck, in every trip, and no more what it does not say any more", async () => {
  const { log, found, saved } = await start();
  log.startTrip({ name: "Ledge" });
  const note = log.note("note", { text: "Birds over\nthe rip" });
  const mark = log.note("mark", { rod: "3 port corner", fish: "bluefish" });
  await saved();
  expect(await found("birds rip")).toEqual([note.id]);
  expect(await found("rod 3")).toEqual([mark.id]);
  // Its trip's name counts for each of its records.
  expect(await found("ledge bluefish")).toEqual([mark.id]);
  log.amend(note, { text: "Terns over the rip" });
  log.strike(mark);
  await saved();
  expect(await found("birds")).toEqual([]);
  expect(await found("terns")).toEqual([note.id]);
  // What is struck out stays legible, and is found.
  expect(await found("bluefish")).toEqual([mark.id]);
});

it("finds again what was noted when the disk had room for the note alone", async () => {
  const { log, found, saved, projected } = await start();
  log.startTrip({ name: "Ledge" });
  await saved();
  const { put } = IDBObjectStore.prototype;
  let full = true;
  const spy = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (
    this: IDBObjectStore,
    value,
    key,
  ) {
    if (full && this.name === "records") {
      full = false;
      throw new DOMException("full", "QuotaExceededError");
    }
    return key === undefined ? put.call(this, value) : put.call(this, value, key);
  });
  const note = log.note("note", { text: "terns" });
  await saved();
  expect(full).toBe(false);
  spy.mockRestore();
  await vi.waitFor(async () => expect(await found("terns")).toEqual([note.id]));
  expect(await log.book.isProjected()).toBe(true);
  await vi.waitFor(() => expect(projected.value).toBe(true));
});

it("finds by the numbers as they are shown, also once the units are others", async () => {
  const { log, found, saved, settings, sayIn, sayings, projected } = await start();
  const touch = log.note("touch", { rod: "1 port", bottom: 15.24, lineOut: 60.96, speed: 1.5 });
  await saved();
  expect(await found("50")).toEqual([touch.id]);
  settings.set({ ...settings.value, units: { ...settings.value.units, depth: "m", line: "m" } });
  projected.value = undefined;
  sayIn(sayings.value);
  await vi.waitFor(() => expect(projected.value).toBe(true));
  expect(await found("50")).toEqual([]);
  expect(await found("61")).toEqual([touch.id]);
});

/** How often words were read since, of however many trips at once. */
function readings(): () => number {
  const opened = vi.spyOn(IDBDatabase.prototype, "transaction");
  return () => {
    const count = opened.mock.calls.filter(([stores]) => [stores].flat().includes("words")).length;
    opened.mockClear();
    return count;
  };
}

it("reads the words of ten trips in one go, once, and ahead of what is typed", async () => {
  const { log, found, ahead, saved } = await start();
  const notes = Array.from({ length: 25 }, () => {
    log.startTrip({});
    return log.note("note", { text: "terns" }).id;
  });
  await saved();
  const count = readings();
  // What this page has put it knows; a phone that was only just started does not.
  log.book.forgetWords();
  expect((await found("terns")).sort()).toEqual(notes.sort());
  expect(count()).toBe(3);
  await found("tern");
  expect(count()).toBe(0);
  log.book.forgetWords();
  await Promise.all([ahead(), found("gannets")]);
  expect(count()).toBe(3);
  await ahead();
  expect(await found("terns")).toHaveLength(25);
  expect(count()).toBe(0);
});
