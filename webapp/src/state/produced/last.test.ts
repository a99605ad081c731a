import "fake-indexeddb/auto";
import { expect, it } from "vitest";
import { writeKept } from "../../base/store/db";
import { settings } from "../../base/units/settings";
import { keepLast, lastRead } from "./last";
import type { Read } from "./read";

const read = {
  answer: { factors: [] },
  names: [["White"]],
  whole: true,
  of: "strikes",
  question: "a",
  at: 7,
};

it("the season as it was read last is there at once for the same question, in the same units", async () => {
  expect(await lastRead("a")).toBeUndefined();
  await keepLast(read as unknown as Read);
  expect(await lastRead("a")).toEqual(read);
  expect(await lastRead("b")).toBeUndefined();
  const before = settings.value;
  settings.set({ ...before, units: { ...before.units, depth: "m" } });
  expect(await lastRead("a")).toBeUndefined();
  settings.set(before);
  expect(await lastRead("a")).toEqual(read);
});

it.each([undefined, null, 7, "x", [], { made: "", read: null }])(
  "%j in its place is passed over",
  async (raw) => {
    await writeKept("season", raw);
    expect(await lastRead("a")).toBeUndefined();
  },
);
