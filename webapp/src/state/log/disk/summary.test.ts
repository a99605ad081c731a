import { expect, it, vi } from "vitest";
import type { Fields, Stored } from "../../entry/entry";
import { summarise } from "./summary";

const entry = (at: number) =>
  ({ id: `${at}`, trip: "t", record: `${at}`, kind: "note", at, fields: {} }) as unknown as Stored;

it("a clock gone mad does not keep a trip going, nor one that is ahead for longer than one that is right", () => {
  vi.useFakeTimers();
  const now = Date.now();
  expect(summarise([entry(now - 60_000), entry(253_370_764_800_000)]).last).toBe(now - 60_000);
  for (const ahead of [3600_000, 23.9 * 3600_000])
    expect(summarise([entry(now - 60_000), entry(now + ahead)]).last).toBe(now);
  vi.useRealTimers();
});

it("what closes a trip or puts it with another is not noted in it; what opens it again is", () => {
  const said = (at: number, set: Fields) => ({ ...entry(at), record: "t", kind: "trip", set });
  const last = (...more: Stored[]) => summarise([said(1000, { opened: 1000 }), entry(2000), ...more]).last;
  expect(last()).toBe(2000);
  for (const set of [{ closed: 3000 }, { into: "u" }, { into: null }, { apart: true }, { struck: true }])
    expect(last(said(3000, set))).toBe(2000);
  expect(last(said(3000, { closed: 3000 }), said(4000, { closed: null }))).toBe(4000);
  expect(last(said(3000, { name: "Monday" }))).toBe(3000);
});
