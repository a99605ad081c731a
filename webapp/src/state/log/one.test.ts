import fc from "fast-check";
import { expect, it } from "vitest";
import { type Summary, unknownTrip } from "./disk/summary";
import { intoOf, rootIn, tripsOf } from "./one";

const summary = (trip: string, into: string | null = null, more: Partial<Summary> = {}): Summary => ({
  ...unknownTrip(trip),
  into,
  ...more,
});

// The same ways as TestRoot of the server's store.
it("a way of into leads to its end, and round in a circle to its least", () => {
  const into = new Map([
    ["2", "1"],
    ["3", "2"],
    ["5", "4"],
    ["4", "5"],
    ["9", "8"],
    ["8", "7"],
    ["7", "9"],
    ["a", "9"],
  ]);
  const roots = [..."12345789ab"].map((trip) => rootIn(into, trip));
  expect(roots.join("")).toBe("111447777b");
});

it("every trip is a part of one, whatever was said and in whatever order it came", () => {
  const ids = [..."abcdef"];
  const said = fc.array(
    fc.record({ trip: fc.constantFrom(...ids), into: fc.constantFrom(...ids, "unknown", null) }),
  );
  fc.assert(
    fc.property(said, fc.infiniteStream(fc.nat(5)), (all, at) => {
      const into = new Map(all.map(({ trip, into }) => [trip, into]));
      const summaries = ids.map((trip) => summary(trip, into.get(trip) ?? null, { hookups: 1 }));
      const trips = tripsOf(summaries);
      expect(trips.flatMap(({ parts }) => parts).sort()).toEqual(ids);
      expect(trips.reduce((sum, { hookups }) => sum + hookups, 0)).toBe(ids.length);
      for (const { trip, parts } of trips) {
        expect(parts[0]).toBe(trip);
        for (const part of parts) expect(rootIn(intoOf(summaries), part)).toBe(trip);
      }
      const shuffled = [...summaries].sort(() => (at.next().value ?? 0) - 2);
      expect(new Set(tripsOf(shuffled).map(({ trip }) => trip))).toEqual(
        new Set(trips.map(({ trip }) => trip)),
      );
    }),
  );
});

it("is named, begun and closed as the one that all are a part of", () => {
  const [one] = tripsOf([
    summary("b", "a", {
      name: "Ben's",
      opened: 9,
      first: 9,
      last: 50,
      hookups: 2,
      closed: 60,
      boat: "Heron",
    }),
    summary("a", null, { name: "Ann's", opened: 5, first: 5, last: 20, hookups: 1 }),
  ]);
  expect(one).toMatchObject({
    trip: "a",
    name: "Ann's",
    opened: 5,
    last: 50,
    hookups: 3,
    closed: null,
    boat: "Heron",
  });
});

it("a trip of which nothing is here is no place to lead to", () => {
  expect(tripsOf([summary("b", "elsewhere")])).toMatchObject([{ trip: "b", parts: ["b"] }]);
});
