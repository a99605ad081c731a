import "fake-indexeddb/auto";
import { beforeEach, expect, it, vi } from "vitest";
import { limits } from "../../base/desk/types/towline.gen";
import { writeKept } from "../../base/store/db";
import { storageTroubles } from "../../base/store/kept";
import { fromSi, toSi } from "../../base/units/units";
import { doubt, doubtNames, firstDoubt, isFirst } from "./doubt";

vi.stubGlobal("BroadcastChannel", undefined);

const narrow = { ...firstDoubt, speed: 0.02, lureWeight: 0.01 };

beforeEach(() => {
  doubt.signal.value = firstDoubt;
  storageTroubles.value = [];
});

it("the doubts to begin with are the desk's, all nine", () => {
  expect(doubtNames).toHaveLength(9);
  for (const name of doubtNames) expect(firstDoubt[name]).toBe(limits.Doubt[name].default);
});

it("are read as they were saved", async () => {
  await writeKept("doubt", narrow);
  expect(await doubt.load()).toBe(true);
  expect(doubt.value).toEqual(narrow);
});

const { speed: _, ...without } = narrow;
it.each([
  ["one missing", without],
  ["less than none", { ...narrow, lineDrag: -0.1 }],
  ["more than the desk takes", { ...narrow, friction: limits.Doubt.friction.max + 0.1 }],
  ["no number", { ...narrow, sinkers: Number.NaN }],
])("are not taken with %s", async (_, raw) => {
  await writeKept("doubt", raw);
  expect(await doubt.load()).toBe(false);
  expect(doubt.value).toEqual(firstDoubt);
  expect(storageTroubles.value).toHaveLength(1);
});

it("stored before the drags came from published data, take the new ones where nobody had changed them", async () => {
  const before = { ...firstDoubt, lineDrag: 0.2, lureDrag: 0.35 };
  await writeKept("doubt", { ...before, speed: 0.02 });
  expect(await doubt.load()).toBe(true);
  expect(doubt.value).toEqual({ ...firstDoubt, speed: 0.02 });
  await writeKept("doubt", { ...before, lureDrag: 0.3 });
  expect(await doubt.load()).toBe(true);
  expect(doubt.value).toEqual({ ...firstDoubt, lureDrag: 0.3 });
});

it("set today to what they were first then, stay", async () => {
  doubt.set({ ...firstDoubt, lineDrag: 0.2 });
  await doubt.settled();
  doubt.signal.value = firstDoubt;
  expect(await doubt.load()).toBe(true);
  expect(doubt.value).toEqual({ ...firstDoubt, lineDrag: 0.2 });
});

it("typed as they are shown are as first set", () => {
  expect(isFirst("lureDrag", toSi(fromSi(firstDoubt.lureDrag, "%"), "%"))).toBe(true);
  expect(isFirst("lureDrag", 0.36)).toBe(false);
});
