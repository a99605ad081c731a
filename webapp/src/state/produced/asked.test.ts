import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { beforeEach, expect, it, vi } from "vitest";
import { limits } from "../../base/desk/types/produced.gen";

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
});

/** The app, started anew. */
async function start() {
  vi.resetModules();
  const { asked, pay } = await import("./asked");
  const had = await asked.load();
  return { asked, pay, had };
}

it("pays for what was asked before the app was closed", async () => {
  const first = await start();
  expect(first.had).toBe(false);
  expect(first.pay(undefined)).toBe(1);
  expect(first.pay("strikes||")).toBe(1);
  expect(first.pay("fish||")).toBe(2);
  expect(first.pay("fish||")).toBe(2);
  await first.asked.settled();
  const next = await start();
  expect(next.pay("strikes||")).toBe(2);
  expect(next.pay("strikes||2031")).toBe(3);
});

it("asks the desk for no more looks than it takes", async () => {
  const { pay } = await start();
  const { max } = limits.Query.looks;
  for (let i = 0; i < max + 3; i++) pay(String(i));
  expect(pay("one more")).toBe(max);
});
