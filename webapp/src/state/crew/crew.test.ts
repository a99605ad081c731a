import { IDBFactory } from "fake-indexeddb";
import { theLog } from "../log/saying/started";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { words } from "../entry/fold";

/** The modules hold what is kept; each start of the app is a new set of them. */
async function start() {
  vi.resetModules();
  const log = await theLog();
  const boat = await import("./boat");
  const lists = await import("./lists");
  const ticks = await import("./ticks");
  const told = await import("./told");
  const trip = await import("./trip");
  const { keepCrew } = await import("./keep");
  await Promise.all([boat.keptBoat, lists.keptLists, told.waitingTicks].map((kept) => kept.load()));
  await log.loadLog();
  if (log.running.value) await log.show(log.running.value.trip);
  keepCrew();
  const begin = async () => {
    log.startTrip({});
    await log.show(log.running.value?.trip as string);
  };
  const atRest = async () => {
    await vi.waitFor(() => {
      for (const record of log.records.value) expect(log.isSaved(record)).toBe(true);
    });
    await Promise.all([boat.keptBoat, lists.keptLists, told.waitingTicks].map((kept) => kept.settled()));
  };
  const ofKind = (kind: string) => log.records.value.filter((record) => record.kind === kind);
  return { ...log, ...boat, ...lists, ...ticks, ...told, ...trip, begin, atRest, ofKind };
}

type Crew = Awaited<ReturnType<typeof start>>;

const list = (crew: Crew, name: string) => crew.listFor(name) as NonNullable<ReturnType<Crew["listFor"]>>;

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal("BroadcastChannel", undefined);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

it("ticks belong to their trip: the next one begins with none", async () => {
  const crew = await start();
  await crew.begin();
  crew.tick("turn", "room");
  crew.tick("turn", "wide");
  crew.tick("turn", "wide");
  expect(crew.doneOf(list(crew, "turn"))).toBe(1);
  expect(crew.tickOf("turn", "room")).toBeDefined();
  const [trip] = crew.ofKind("trip");
  if (trip) crew.amend(trip, { closed: Date.now() });
  await crew.atRest();
  await crew.begin();
  expect(crew.doneOf(list(crew, "turn"))).toBe(0);
});

it("begins a list anew for the next turn, and has the ticks back on undo", async () => {
  const crew = await start();
  await crew.begin();
  for (const item of ["room", "wide"]) crew.tick("turn", item);
  const back = crew.beginAnew(list(crew, "turn"));
  expect(crew.doneOf(list(crew, "turn"))).toBe(0);
  back();
  expect(crew.doneOf(list(crew, "turn"))).toBe(2);
  // Said of the same records, so that it stays legible who ticked when.
  expect(crew.ofKind("tick")).toHaveLength(2);
});

it("a list that was changed without a trip is kept, and goes along with the next one", async () => {
  const first = await start();
  const turn = list(first, "turn");
  expect(first.isAsItCame(turn)).toBe(true);
  first.setList({ ...turn, items: first.moved(["own check", ...turn.items], 0, 1) });
  expect(first.running.value).toBeUndefined();
  await first.atRest();

  const later = await start();
  expect(list(later, "turn").items.slice(0, 2)).toEqual([turn.items[0], "own check"]);
  await later.begin();
  const [told] = later.ofKind("list");
  expect(told && words(told, "list")).toBe("turn");
  expect(told?.fields.get("items")?.value).toEqual(list(later, "turn").items);
  // Lists that nobody has changed are not told of.
  expect(later.ofKind("list")).toHaveLength(1);
});

it("what another phone said of a list in this trip holds, and is remembered for the next trip", async () => {
  const crew = await start();
  await crew.begin();
  // As the exchange brings it.
  crew.note("list", { list: "out", name: "Out they go", items: ["braked", 7, "own"] });
  expect(list(crew, "out")).toEqual({ list: "out", name: "Out they go", items: ["braked", "own"] });
  crew.setList({ ...list(crew, "out"), items: ["own"] });
  expect(crew.ofKind("list")).toHaveLength(1);
  await crew.atRest();
  expect((await start()).listFor("out")?.items).toEqual(["own"]);
});

it("an old trip opened again does not bring its lists back", async () => {
  const crew = await start();
  vi.useFakeTimers({ toFake: ["Date"], now: Date.now() - 7 * 24 * 3600_000 });
  await crew.begin();
  vi.useRealTimers();
  crew.note("list", { list: "out", name: "", items: ["old"] });
  expect(crew.keptLists.value).toEqual([]);
});

it("a list of one's own is made, taken away, and had back", async () => {
  const crew = await start();
  await crew.begin();
  const made = crew.makeList();
  crew.setList({ ...made, name: "Night" });
  expect(crew.checklists.value.at(-1)).toMatchObject({ name: "Night" });
  const back = crew.dropList(list(crew, made.list));
  expect(crew.listFor(made.list)).toBeUndefined();
  await crew.atRest();
  back();
  expect(crew.listFor(made.list)?.name).toBe("Night");
  await crew.atRest();
  expect((await start()).listFor(made.list)?.name).toBe("Night");
});

it("a guest's phone brings no lists and no boat into the trip, and takes over the trip's", async () => {
  const crew = await start();
  crew.setBoat({ name: "Guest's own" });
  crew.setList({ ...list(crew, "out"), items: ["guest's own"] });
  await crew.book.setMeta("you", { device: "d", name: "Gus", role: "guest", may: [] });
  await crew.changed();
  await crew.begin();
  expect([...crew.ofKind("list"), ...crew.ofKind("boat")]).toEqual([]);
  crew.note("boat", { name: "Petrel", people: 4, mmsi: 7 });
  expect(crew.boat.value).toMatchObject({ name: "Petrel", people: 4, mmsi: "" });
  expect(crew.keptBoat.value.name).toBe("Petrel");
});

it("what to buy lasts from trip to trip, once each, and is no checklist", async () => {
  const crew = await start();
  crew.putOnShopping("wire");
  crew.putOnShopping("wire");
  await crew.begin();
  crew.putOnShopping("swivels");
  expect(crew.shopping().items).toEqual(["wire", "swivels"]);
  expect(crew.checklists.value.map((one) => one.list)).not.toContain("buy");
  await crew.atRest();
  expect((await start()).shopping().items).toEqual(["wire", "swivels"]);
});

it("a guest ticks without a trip, and the tick goes along with the trip that begins then", async () => {
  const crew = await start();
  crew.setTold("Sam", true);
  crew.setTold("Kim", true);
  crew.setTold("sam ", true);
  expect(crew.guests.value.map(({ name, since }) => [name, since !== undefined])).toEqual([
    ["Kim", true],
    ["sam ", true],
  ]);
  expect(crew.running.value).toBeUndefined();
  await crew.begin();
  expect(crew.ofKind("briefed").map((one) => words(one, "person"))).toEqual(["Kim", "sam "]);
  expect(crew.peopleAboard()).toEqual(["Kim", "sam"]);
  crew.setTold("Kim", false);
  expect(crew.guests.value.find(({ name }) => name === "Kim")?.since).toBeUndefined();
  expect(crew.waitingTicks.value).toEqual([]);
});

it("yesterday's ticks do not go along", async () => {
  const crew = await start();
  vi.useFakeTimers({ toFake: ["Date"], now: Date.now() - 19 * 3600_000 });
  crew.setTold("Sam", true);
  vi.useRealTimers();
  expect(crew.guests.value).toEqual([]);
  await crew.begin();
  expect(crew.ofKind("briefed")).toEqual([]);
  expect(crew.waitingTicks.value).toEqual([]);
});
