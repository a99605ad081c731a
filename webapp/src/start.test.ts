import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { beforeEach, expect, it, vi } from "vitest";
import { slowDisk } from "./base/store/slow-disk";
import { sampleCatalogue, sampleGear, sampleSpread } from "./state/spread/sample";

/** A start of the app, with a calculator that tells what things begin with and nothing else. */
async function start() {
  vi.resetModules();
  const { desk } = await import("./base/desk/desk");
  const never = () => new Promise<never>(() => {});
  const begins: { [name: string]: unknown } = {
    gear: sampleCatalogue,
    rules: { sets: [{ name: "first", asOf: "2024", rules: [] }] },
  };
  vi.spyOn(desk, "ask").mockImplementation(
    (name) => (begins[name] ? Promise.resolve(begins[name]) : never()) as never,
  );
  vi.spyOn(desk, "newest").mockImplementation(never);
  const { gear } = await import("./state/gear/gear");
  const { spread } = await import("./state/spread/spread");
  const { rules, fillRules } = await import("./state/rules/rules");
  const app = await import("./app/start");
  const begin = async () => {
    await Promise.all([app.loadKept(), rules.loaded()]);
    app.keepSpread();
    await fillRules();
    await vi.waitFor(() => expect(spread.value.rods.length).toBeGreaterThan(0));
  };
  const saved = () => Promise.all([gear, spread, rules].map((kept) => kept.settled()));
  return { gear, spread, rules, begin, saved };
}

/** What the next start reads. */
async function next() {
  const { gear, spread, rules } = await start();
  await Promise.all([gear, spread, rules].map((kept) => kept.load()));
  return { gear: gear.value, spread: spread.value, rules: rules.value };
}

const mine = {
  gear: { ...sampleGear, drails: [{ id: "d", name: "", source: "mine", mass: 0.2, number: 3 }] },
  spread: sampleSpread,
  rules: { sets: [{ id: "own", name: "Mine", asOf: "2026", rules: [] }], set: "own", waters: "" },
};

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
});

it("fills in what nobody has entered, and keeps it", async () => {
  const first = await start();
  await first.begin();
  await first.saved();
  const after = await next();
  expect(after.spread.rods).toHaveLength(sampleCatalogue.start.rods.length);
  expect(after.gear).toEqual(first.gear.value);
  expect(after.rules.sets.map(({ name }) => name)).toEqual(["first"]);
});

it("leaves gear, spread and rules as they are when the disk answers late, and shows them then", async () => {
  const before = await start();
  before.gear.set(mine.gear);
  before.spread.set(mine.spread);
  before.rules.set(mine.rules);
  await before.saved();

  const answer = slowDisk();
  const slow = await start();
  const began = slow.begin();
  await vi.advanceTimersByTimeAsync(5000);
  await began;
  // It can be worked with meanwhile.
  expect(slow.spread.value.rods).toHaveLength(sampleCatalogue.start.rods.length);
  expect(slow.rules.value.sets.map(({ name }) => name)).toEqual(["first"]);
  answer();
  await vi.waitFor(() => {
    expect(slow.gear.value).toEqual(mine.gear);
    expect(slow.spread.value).toEqual(mine.spread);
    expect(slow.rules.value).toEqual(mine.rules);
  });
  await slow.saved();
  vi.restoreAllMocks();
  expect(await next()).toEqual(mine);
});
