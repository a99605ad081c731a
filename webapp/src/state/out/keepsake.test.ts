/** What of a trip is drawn on a guest's page. */
import { expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { drawnFor, keepsake } from "./keepsake";

it("draws nothing of where others' fish were caught, nor of what was noted of them", () => {
  const say = (n: number, kind: string, set: object): Stored => ({
    ...{ id: `e${n}`, record: `r${n}`, kind, trip: "t", prev: [], set: { lat: n, lon: n, ...set } },
    ...{ at: n * 1000, n },
  });
  const all = foldAll([
    say(1, "note", { text: "under way" }),
    say(2, "mark", { person: "Ann", fish: "striped bass" }),
    say(3, "mark", { person: "Gus", fish: "bluefish" }),
    say(4, "photo", { of: "r3" }),
    say(5, "bag", { person: "Gus" }),
    say(6, "mark", {}),
    say(7, "photo", { of: "r2" }),
    say(8, "bag", { person: "Ann" }),
  ]);
  expect(drawnFor(all, "Ann").map(({ id }) => id)).toEqual(["r1", "r2", "r7", "r8"]);
});

it("says of a guest without a fish that there was none this time, and does not count to 0", async () => {
  const page = await keepsake({ trip: "t", opened: 0, first: 0 } as never, [], {
    whose: "Gus",
    as: "Gus",
    others: [],
    drawing: undefined,
  });
  expect(page).toContain("No fish this time.");
  expect(page).not.toMatch(/\b0 fish/);
});
