import fc from "fast-check";
import { expect, it } from "vitest";
import type { Folded } from "../../entry/fold";
import { uuid } from "../../entry/uuid";
import { type Summary, unknownTrip } from "../disk/summary";
import { intoOf, rootIn, tripsOf } from "../one";
import { boats, guest, later, opened, receive, saved, start } from "./started";

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

it.each([
  ["a mate's", {}],
  ["a guest's", guest],
])("%s first mark goes into the boat's open trip", async (_, you) => {
  const log = await start();
  await receive(log, you, [opened(boats)]);
  expect(log.note("mark", {}).trip).toBe(boats);
  await saved(log);
  expect(log.summaries.value).toHaveLength(1);
});

it("a guest whose trip is closed notes in one of its own, and nothing of it is called sent", async () => {
  const log = await start();
  await receive(log, guest, [opened(boats, { closed: Date.now() })]);
  const { trip } = log.note("mark", {});
  await saved(log);
  expect(trip).not.toBe(boats);
  expect(log.standing.value.unsent).toBe(0);
  expect(log.standing.value.held).toHaveLength(2);
  // It is opened again: from now on what is noted is the boat's.
  await receive(log, guest, [{ ...opened(boats, { closed: null }), prev: [] }]);
  expect(log.running.value?.trip).toBe(boats);
});

it("a guest that noted in a trip of its own notes in the boat's from when it comes aboard, the older one too", async () => {
  const log = await start();
  const { trip } = log.note("mark", {});
  await saved(log);
  expect(trip).not.toBe(boats);
  const before = { at: Date.now() - 3600_000 };
  await receive(log, guest, [{ ...opened(boats, { opened: before.at }), ...before }]);
  expect(log.running.value?.trip).toBe(boats);
});

it("two trips opened apart are asked about once, and are one from then on", async () => {
  const log = await start();
  log.startTrip({ name: "mine" });
  await saved(log);
  const mine = log.running.value?.trip as string;
  await receive(log, {}, [opened(boats, { opened: Date.now() - 60_000 }), { set: { text: "Ben's" } }]);
  expect(log.twoTrips.value?.map(({ trip }) => trip)).toEqual([boats, mine]);
  await log.sayOfTrip(mine, { into: boats });
  log.note("note", { text: "while it is said" });
  await saved(log);
  expect(log.twoTrips.value).toBeUndefined();
  expect(log.running.value).toMatchObject({ trip: boats, parts: [boats, mine] });
  // What is noted from now on goes to the one; what a phone writes into the other that knows nothing yet is seen with it.
  expect(log.note("note", { text: "after" }).trip).toBe(boats);
  await receive(log, {}, [{ trip: mine, set: { text: "knew nothing" } }]);
  await log.show(mine);
  await saved(log);
  const texts = log.records.value.flatMap(({ fields }) => fields.get("text")?.value ?? []);
  expect(texts.sort()).toEqual(["Ben's", "after", "knew nothing", "while it is said"]);
  // Said the other way round at the same time on another phone: still one, with the least id, and all of it there.
  await receive(log, {}, [{ ...opened(boats, { into: mine }) }]);
  expect(log.summaries.value).toHaveLength(1);
  expect(log.running.value?.trip).toBe([boats, mine].sort()[0]);
  await log.sayOfTrip(mine, { into: null });
  await log.sayOfTrip(boats, { into: null });
  await saved(log);
  expect(log.summaries.value).toHaveLength(2);
});

it("two that are to stay two are not asked about again, and a guest is not asked", async () => {
  const log = await start();
  log.startTrip({});
  await saved(log);
  await receive(log, {}, [opened(boats, { opened: 1 })]);
  expect(log.twoTrips.value).toBeDefined();
  await log.sayOfTrip(log.twoTrips.value?.[1].trip as string, { apart: true });
  await saved(log);
  expect(log.twoTrips.value).toBeUndefined();
  await receive(log, guest, []);
  await log.sayOfTrip(log.running.value?.trip as string, { apart: null });
  await saved(log);
  expect(log.twoTrips.value).toBeUndefined();
});

it("a phone whose clock is a day ahead notes in the trip that runs, and asks nobody to close it", async () => {
  const log = await start();
  const { clockAhead, noteClock } = await import("../../../base/phone/clock");
  const first = log.note("note", { text: "by the right clock" });
  await saved(log);
  later(24);
  log.lookAnew();
  expect(log.unclosed.value).toHaveLength(1);
  noteClock(24 * 3600_000);
  expect(log.unclosed.value).toEqual([]);
  expect(log.running.value?.trip).toBe(first.trip);
  expect(log.note("note", { text: "a day ahead" }).trip).toBe(first.trip);
  await saved(log);
  await clockAhead.settled();
});

it("a phone whose clock is more than a day behind notes in the trip that runs, and asks nobody to close it", async () => {
  const log = await start();
  const { clockAhead, noteClock } = await import("../../../base/phone/clock");
  const boat = Date.now();
  later(-26);
  noteClock(-26 * 3600_000);
  await receive(log, {}, [{ ...opened(boats, { opened: boat }), at: boat }]);
  expect(log.unclosed.value).toEqual([]);
  expect(log.running.value?.trip).toBe(boats);
  expect(log.note("note", { text: "a day behind" }).trip).toBe(boats);
  await saved(log);
  await clockAhead.settled();
});

it("what is noted after a night and a day begins another trip; the old one is asked to be closed", async () => {
  const log = await start();
  const first = log.note("note", { text: "yesterday" });
  await saved(log);
  later(17.9);
  log.lookAnew();
  expect(log.running.value?.trip).toBe(first.trip);
  expect(log.unclosed.value).toEqual([]);
  later(0.2);
  // Nothing has been read since: the tap itself finds that the old trip is over.
  const second = log.note("note", { text: "today" });
  expect(second.trip).not.toBe(first.trip);
  await saved(log);
  expect(log.running.value?.trip).toBe(second.trip);
  expect(log.twoTrips.value).toBeUndefined();
  expect(log.unclosed.value.map(({ trip }) => trip)).toEqual([first.trip]);
  await log.sayOfTrip(first.trip, { closed: Date.now() });
  await saved(log);
  expect(log.unclosed.value).toEqual([]);
  expect(log.running.value?.trip).toBe(second.trip);
});

it("an old trip that goes on runs at once, and after a restart too", async () => {
  const log = await start();
  const { trip } = log.note("note", { text: "at anchor" });
  await saved(log);
  later(40);
  log.lookAnew();
  expect(log.running.value).toBeUndefined();
  await log.goOnIn(trip);
  expect(log.note("note", { text: "and on" }).trip).toBe(trip);
  await saved(log);
  expect(log.unclosed.value).toEqual([]);
  expect((await start()).running.value?.trip).toBe(trip);
});

it("two trips of one outing are asked about however long ago it was, and as one they are asked to be closed", async () => {
  const log = await start();
  const { trip: mine } = log.note("note", { text: "mine" });
  await saved(log);
  await receive(log, {}, [opened(boats, { opened: Date.now() - 60_000 })]);
  later(72);
  await log.refresh();
  expect(log.twoTrips.value?.map(({ trip }) => trip)).toEqual([boats, mine]);
  expect(log.unclosed.value).toEqual([]);
  // Before the answer, what is noted begins neither again.
  const { trip: next } = log.note("note", { text: "another day" });
  await saved(log);
  expect([boats, mine]).not.toContain(next);
  expect(log.twoTrips.value?.map(({ trip }) => trip)).toEqual([boats, mine]);
  await log.sayOfTrip(mine, { apart: true });
  await saved(log);
  expect(log.twoTrips.value).toBeUndefined();
  expect(log.unclosed.value.map(({ trip }) => trip).sort()).toEqual([boats, mine].sort());
  expect(log.running.value?.trip).toBe(next);
});

it("a mate who comes after a night notes in the trip that another began meanwhile", async () => {
  const log = await start();
  log.note("note", { text: "yesterday" });
  await saved(log);
  later(20);
  await receive(log, {}, [opened(boats)]);
  expect(log.running.value?.trip).toBe(boats);
  expect(log.note("mark", {}).trip).toBe(boats);
  expect(log.twoTrips.value).toBeUndefined();
});

it("a guest notes in the trip of the invitation while it is open, and is not asked to close it", async () => {
  const log = await start();
  await receive(log, guest, [opened(boats)]);
  expect(log.running.value?.trip).toBe(boats);
  later(30);
  log.lookAnew();
  expect(log.note("mark", {}).trip).toBe(boats);
  await saved(log);
  later(30);
  await log.refresh();
  expect(log.unclosed.value).toEqual([]);
});

it("closing and making one cross: what is noted goes on where the one is open, and nothing is lost", async () => {
  const log = await start();
  log.startTrip({});
  await saved(log);
  const mine = log.running.value?.trip as string;
  await receive(log, {}, [opened(boats, { opened: 1 })]);
  await log.sayOfTrip(mine, { into: boats });
  await log.sayOfTrip(mine, { closed: 5 });
  await saved(log);
  expect(log.running.value?.trip).toBe(boats);
  await receive(log, {}, [{ ...opened(boats, { closed: 7 }) }]);
  expect(log.running.value).toBeUndefined();
  expect(log.noted.value).toMatchObject({ trip: boats, closed: 7, closedBy: "Ben" });
});

it("a guest amends own records and what is anybody's; another's it proposes to change, once", async () => {
  const log = await start();
  const theirs = uuid();
  const check = uuid();
  await receive(log, guest, [
    opened(boats),
    { kind: "mark", record: theirs, set: { fish: "bluefish" } },
    { kind: "tick", record: check, set: { item: "plug", done: true } },
  ]);
  await log.show(boats);
  const find = (id: string) => log.records.value.find((record) => record.id === id) as Folded;
  const own = log.note("mark", {});
  await saved(log);
  log.amend(find(own.id), { fish: "striped bass" });
  log.amend(find(check), { done: false });
  log.amend(find(theirs), { fish: "striped bass" });
  await saved(log);
  log.amend(find(theirs), { length: 0.8 });
  log.strike(find(theirs));
  await saved(log);
  expect(find(own.id).fields.get("fish")?.value).toBe("striped bass");
  expect(find(check).fields.get("done")?.value).toBe(false);
  expect(find(theirs).entries).toHaveLength(1);
  const proposals = log.records.value.filter(({ kind }) => kind === "proposal");
  expect(proposals).toHaveLength(1);
  expect(proposals[0]?.fields.get("says")?.value).toEqual({
    fish: "striped bass",
    length: 0.8,
    struck: true,
  });
  expect(proposals[0]?.fields.get("of")?.value).toBe(theirs);
});

it("what the server refused of another's record is said again as a proposal", async () => {
  const log = await start();
  await receive(log, guest, [opened(boats)]);
  await log.show(boats);
  const own = log.note("mark", { fish: "bluefish" });
  await saved(log);
  // As of a phone that came aboard anew: the server does not know that it began the record.
  const [entry] = (await log.book.entriesOf(boats)).filter(({ record }) => record === own.id);
  const batch = await log.book.batch(200, 1e6);
  await log.book.take(batch, {
    cursor: { ...batch.cursor, since: batch.cursor.since + 1 },
    taken: [],
    refused: [{ id: entry?.id as string, code: "others", why: "" }],
    entries: [],
    spoilt: [],
    you: { device: "d", name: "A", ...guest },
  });
  await log.changed();
  log.amend(log.records.value.find(({ id }) => id === own.id) as Folded, {});
  await saved(log);
  expect(log.records.value.find(({ kind }) => kind === "proposal")?.fields.get("says")?.value).toEqual({
    fish: "bluefish",
  });
  expect(log.standing.value.refused).toEqual([]);
});
