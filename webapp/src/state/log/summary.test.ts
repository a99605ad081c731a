import { expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { summarise } from "./summary";

const entry = (at: number) =>
  ({ id: `${at}`, trip: "t", record: `${at}`, kind: "note", at, fields: {} }) as unknown as Stored;

it("a clock gone mad does not keep a trip going", () => {
  const now = Date.now();
  expect(summarise([entry(now - 60_000), entry(253_370_764_800_000)]).last).toBe(now - 60_000);
  // One that is an hour ahead is believed.
  expect(summarise([entry(now - 60_000), entry(now + 3600_000)]).last).toBe(now + 3600_000);
});
