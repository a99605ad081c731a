/** What of a trip is drawn on a guest's page. */
import "fake-indexeddb/auto";
import { expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { book, you } from "../log/log";
import type { Trip } from "../log/one";
import { drawnFor, keepsake, photosOfPerson } from "./keepsake";

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

it("has the photos of no fish that were taken with the guest's own phone, by its name, and nobody else's", async () => {
  const photo = (n: number, set: object, more: Partial<Stored>): Stored => ({
    ...{ id: `p${n}`, record: `p${n}`, kind: "photo", trip: "t", prev: [], at: n * 1000, n, ...more },
    set: { sha256: String(n).padStart(64, "0"), ...set },
  });
  const all = foldAll([
    photo(1, {}, { by: "a", byName: " ann" }),
    photo(2, {}, { by: "g", byName: "Gus" }),
    photo(3, { of: "m" }, { by: "a", byName: "Ann" }),
    photo(4, {}, { own: true }),
  ]);
  const shown = (person: string) => photosOfPerson(all, person).map(({ id }) => id);
  expect(shown("Ann")).toEqual(["p1"]);
  // This phone's own are a guest's where it came aboard under that name.
  you.value = { device: "me", name: "Ann", role: "guest", trip: "t", may: [] };
  expect(shown("Ann")).toEqual(["p1", "p4"]);
  expect(shown("")).toEqual([]);
  you.value = undefined;

  const bytes = new TextEncoder().encode("picture").buffer as ArrayBuffer;
  const picture = { sha256: "1".padStart(64, "0"), type: "image/jpeg", bytes };
  await book.bringPhoto(picture, picture, undefined);
  const trip = { trip: "t", name: "Day", opened: 0, ground: "", parts: ["t"] } as unknown as Trip;
  const page = await keepsake(trip, all, { whose: "Ann", as: "", others: [], drawing: undefined });
  expect(page.match(/<img src="[^"]*"/g)).toEqual([`<img src="data:image/jpeg;base64,${btoa("picture")}"`]);
});

it("says of which year it is, and no name turns the words around it", async () => {
  const opened = new Date().setMonth(0, 2);
  const trip = { trip: "t", name: "Day", opened, first: 0, ground: "Ledge", parts: ["t"] } as unknown as Trip;
  const wanted = { whose: "Gus", as: "\u202eGus", others: ["\u05d0\u05d1"], drawing: undefined };
  const page = await keepsake(trip, [], wanted);
  expect(page).toContain(`, ${new Date(opened).getFullYear()} · Ledge<`);
  expect(page).toContain("<h1>Gus: Day · Ledge</h1>");
  expect(page).toContain("Gus, \u2068\u05d0\u05d1\u2069<");
});
