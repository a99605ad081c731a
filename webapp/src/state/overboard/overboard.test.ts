import { theLog } from "../log/saying/started";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { Taken } from "../../base/position/position";
import type { Stored } from "../entry/entry";
import { type Folded, foldAll } from "../entry/fold";

const noon = Date.UTC(2026, 6, 4, 16);

const taken = (age: number, fix: object = {}): Taken => ({
  at: { wall: Date.now() - age, run: performance.now() - age },
  fix: { lat: 41.25, lon: -71.5, accuracy: 5, sog: 1.7, cog: 0, ...fix },
});

let n = 0;
const entry = (set: object, more: Partial<Stored> = {}): Stored => ({
  id: `e${++n}`,
  record: "r",
  kind: "overboard",
  trip: "t",
  prev: [],
  set: { ...set },
  at: Date.now(),
  n,
  ...more,
});

const load = async () => ({
  ...(await import("./overboard")),
  ...(await import("./way-back")),
  ...(await import("../../base/position/position")),
});

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["Date", "performance"], now: noon });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

it("keeps the last fix as it was at the first touch, however old, and its speed only if it is of the moment", async () => {
  const { fixFields } = await load();
  expect(fixFields(taken(2000), noon)).toEqual({
    lat: 41.25,
    lon: -71.5,
    accuracy: 5,
    fixed: noon - 2000,
    sog: 1.7,
    cog: 0,
  });
  expect(fixFields(taken(3_600_000), noon)).toEqual({
    lat: 41.25,
    lon: -71.5,
    accuracy: 5,
    fixed: noon - 3_600_000,
    fixAge: 3600,
  });
});

it("asks for the way back from that fix and the last one, with their ages and the time between", async () => {
  const { wayBack, lastFix } = await load();
  const record = foldAll([
    entry({
      went: noon - 90_000,
      lat: 41.25,
      lon: -71.5,
      accuracy: 5,
      sog: 1.7,
      cog: 0,
      fixed: noon - 92_000,
    }),
  ])[0];
  if (!record) throw new Error("no record");
  expect(wayBack(record)).toBeUndefined();
  lastFix.value = taken(30_000, { lat: 41.251 });
  const asked = wayBack(record);
  expect(asked?.since).toBe(90);
  expect(asked?.mark).toMatchObject({ age: 2, accuracy: 5, moving: { speed: 1.7, course: 0 } });
  expect(asked?.mark.lat).toBeCloseTo((41.25 * Math.PI) / 180, 12);
  // A fix of half a minute ago tells no speed of now.
  expect(asked?.here.age).toBeCloseTo(30, 6);
  expect(asked?.here.moving).toBeUndefined();
});

it("asks with the current as it was found and as the tables have it, with its age and what they said then", async () => {
  const { wayBack, lastFix } = await load();
  const { knownCurrent } = await import("../pace/current/found");
  const { predicted } = await import("../pace/current/predicted");
  const record = foldAll([entry({ went: noon, lat: 41.25, lon: -71.5, fixed: noon })])[0];
  if (!record) throw new Error("no record");
  lastFix.value = taken(0);
  expect(wayBack(record)).not.toHaveProperty("current");
  expect(wayBack(record)).not.toHaveProperty("predicted");
  knownCurrent.set({
    set: 1,
    drift: 0.4,
    doubtEast: 0.05,
    doubtNorth: 0.06,
    tied: 0.1,
    quality: "good",
    at: noon - 1200_000,
  });
  const phase = { directed: true, set: 2, value: -0.5, doubt: 0.13 };
  predicted.value = {
    at: noon,
    phase: phase as never,
    before: { ...phase, set: 2.2, value: 0.3 } as never,
  };
  expect(wayBack(record)).toMatchObject({
    current: { set: 1, drift: 0.4, doubtEast: 0.05, doubtNorth: 0.06, tied: 0.1, age: 1200 },
    predicted: { set: 2, drift: 0.5, doubt: 0.13, before: { set: 2.2, drift: 0.3 } },
  });
});

it("a fix soon after is nearer to the moment than one of long before, and one of long after is not", async () => {
  const { isNearer } = await load();
  const none = foldAll([entry({ went: noon })])[0];
  const old = foldAll([entry({ went: noon, lat: 41, lon: -71, fixed: noon - 300_000 })])[0];
  const good = foldAll([entry({ went: noon, lat: 41, lon: -71, fixed: noon - 3000 })])[0];
  if (!none || !old || !good) throw new Error("no record");
  vi.setSystemTime(noon + 10_000);
  expect([none, old, good].map((record) => isNearer(taken(0), record))).toEqual([true, true, false]);
  vi.setSystemTime(noon + 600_000);
  expect([none, old, good].map((record) => isNearer(taken(0), record))).toEqual([false, false, false]);
});

it("counts from when it was noted, and by this phone's own clock where the other's is off", async () => {
  const { sinceWent } = await load();
  const went = (at: number) => foldAll([entry({}, { at })])[0] as ReturnType<typeof foldAll>[0];
  expect(sinceWent(went(noon - 60_000))).toBe(60_000);
  // A clock that is ahead gives no time below nothing.
  expect(sinceWent(went(noon + 3_600_000))).toBe(0);
});

it("a clock that is ahead stands above no case of after it was seen here, and its time is not told", async () => {
  const { cases, counting, isTimeTold, keepOverboard, sinceWent } = await load();
  const { book, loadLog } = await theLog();
  const by = (record: string, went: number, more = {}) =>
    entry({ went, ...more }, { record, by: "gus", byName: "Gus" });
  const wrong = by("wrong", noon + 3_600_000);
  vi.stubGlobal("navigator", {});
  vi.spyOn(book, "entriesOfKinds").mockResolvedValue([wrong]);
  await loadLog();
  keepOverboard();
  await new Promise(setImmediate);
  expect(cases.value.map(({ id }) => id)).toEqual(["wrong"]);

  vi.setSystemTime(noon + 90_000);
  const shown = counting(foldAll([wrong, by("real", noon + 80_000)]));
  expect(shown.map((one) => [one.id, sinceWent(one), isTimeTold(one)])).toEqual([
    ["real", 10_000, true],
    ["wrong", 90_000, false],
  ]);
  // Of a case that is over any time that is past is told, and a clock some seconds ahead is none that is wrong.
  const told = (went: number, more = {}) => foldAll([by("other", went, more)]).map(isTimeTold);
  expect(told(noon - 48 * 3_600_000, { ended: noon })).toEqual([true]);
  expect(told(noon + 3_600_000, { ended: noon })).toEqual([false]);
  expect(told(Date.now() + 5000)).toEqual([true]);
});

it.each([
  ["the writer's clock is a day ahead", noon + 24 * 3_600_000, 0, 1],
  ["the writer's is right, and this phone's known to be a day ahead", noon - 24 * 3_600_000, 24, 1],
  ["it was noted a day ago by right clocks", noon - 24 * 3_600_000, 0, 0],
])("where %s it is an alarm of now or not", async (_, went, ahead, alarms) => {
  const { foremost, keepOverboard, open } = await load();
  const { book, loadLog } = await theLog();
  const { noteClock } = await import("../../base/phone/clock");
  vi.stubGlobal("navigator", {});
  vi.spyOn(book, "entriesOfKinds").mockResolvedValue([entry({ went }, { by: "hal", byName: "Hal" })]);
  noteClock(ahead * 3_600_000);
  await loadLog();
  keepOverboard();
  await new Promise(setImmediate);
  expect(open.value).toHaveLength(alarms);
  expect(foremost.value?.id).toBe(alarms ? "r" : undefined);
});

it("is told by the boat's time where this phone's clock is known to be wrong, and is put right where that is learned later", async () => {
  const { cry, fixFields, foremost, keepOverboard, lastFix, sinceWent, wayBack, wentAt } = await load();
  const { book, loadLog } = await theLog();
  const { noteClock } = await import("../../base/phone/clock");
  vi.stubGlobal("navigator", {});
  vi.spyOn(book, "entriesOfKinds").mockResolvedValue([]);
  await loadLog();
  keepOverboard();
  const hour = 3_600_000;
  noteClock(-3 * hour);
  lastFix.value = taken(2000);
  const record = cry({ when: noon, fix: taken(2000) });
  expect(wentAt(record)).toBe(noon + 3 * hour);
  expect(sinceWent(record)).toBe(0);
  expect(fixFields(taken(2000), wentAt(record))).toMatchObject({ fixed: noon + 3 * hour - 2000, sog: 1.7 });
  expect(wayBack(record)).toMatchObject({ since: 0, mark: { age: 2, moving: { speed: 1.7 } } });
  // It was an hour more: here it is as long ago as before, and others are told the time that it was.
  vi.setSystemTime(noon + 5000);
  noteClock(-4 * hour);
  expect(foremost.value && wentAt(foremost.value)).toBe(noon + 4 * hour);
  expect(foremost.value && sinceWent(foremost.value)).toBe(5000);
  expect(foremost.value && wayBack(foremost.value)).toMatchObject({ since: 5, mark: { age: 2 } });
  // Learned once more it is the same.
  noteClock(-4 * hour);
  expect(foremost.value?.entries).toHaveLength(2);
});

it("what was noted by this phone's clock before that was known to be wrong is told by the boat's", async () => {
  const { cry, foremost, keepOverboard, sinceWent, wentAt } = await load();
  const { book, loadLog } = await theLog();
  const { noteClock } = await import("../../base/phone/clock");
  vi.stubGlobal("navigator", {});
  vi.spyOn(book, "entriesOfKinds").mockResolvedValue([]);
  await loadLog();
  cry({ when: noon - 4000, fix: undefined });
  noteClock(-3 * 3_600_000);
  keepOverboard();
  expect(foremost.value && wentAt(foremost.value)).toBe(noon + 3 * 3_600_000 - 4000);
  expect(foremost.value && sinceWent(foremost.value)).toBe(4000);
});

it("a press of long after the others of its phone is told before them", async () => {
  const { counting, together } = await withCrew();
  const pressed = (record: string, minutes: number) =>
    entry({ went: noon - minutes * 60_000 }, { record, by: "gus", byName: "Gus" });
  const all = foldAll([pressed("by mistake", 90), pressed("now", 4), pressed("again", 1)]);
  expect(together(counting(all)).map((call) => call.map(({ id }) => id))).toEqual([
    ["now", "again", "by mistake"],
  ]);
});

it("of two that are not seen here yet the one whose clock is ahead comes after the one of now", async () => {
  const { counting } = await load();
  const all = [noon + 3_600_000, noon].map((went, i) =>
    entry({ went }, { record: `r${i}`, by: "gus", byName: "Gus" }),
  );
  expect(counting(foldAll(all)).map(({ id }) => id)).toEqual(["r1", "r0"]);
});

it("what another hand wrote makes no request that cannot be asked", async () => {
  const { wayBack, lastFix } = await load();
  lastFix.value = taken(0);
  for (const set of [
    {},
    { lat: 91, lon: 0 },
    { lat: "x", lon: 0 },
    { lat: 1, lon: 1, accuracy: 1e9, sog: 99, fixed: 0 },
  ]) {
    const record = foldAll([entry({ went: noon, ...set })])[0];
    const asked = record && wayBack(record);
    if (!asked) continue;
    expect(asked.mark.accuracy).toBeLessThanOrEqual(1e6);
    expect(Math.abs(asked.mark.age ?? 0)).toBeLessThanOrEqual(1e6);
    expect(asked.mark.moving).toBeUndefined();
  }
});

const crewsPhone = "c2a9f0d4-7b1e-8f38-8e65-9d0b1a2c3f4e";

/** A log of the skipper's phone, which the server tells who is one of the crew. */
async function withCrew() {
  const { you } = await theLog();
  const may = ["trips", "crew"] as const;
  you.value = { device: "me", name: "Sal", role: "skipper", may: [...may], crew: [crewsPhone] };
  return { ...(await load()), you };
}

it("nobody moves another's case, and a guest's word neither ends nor buries it", async () => {
  const { counting, endedBy, wentAt } = await withCrew();
  const at = (set: object, by: string, more: Partial<Stored> = {}) => entry(set, { by, byName: by, ...more });
  const first = at({ went: noon, lat: 41, lon: -71 }, crewsPhone);
  const guest = [
    at({ lat: 42, lon: -70, went: noon - 1 }, "gus"),
    at({ ended: noon, outcome: "mistake" }, "gus"),
    at({}, "gus", { strike: true }),
  ];
  const other = foldAll([first, ...guest]);
  const [shown] = counting(other);
  expect(shown && [wentAt(shown), shown.fields.get("lat")?.value, shown.struck]).toEqual([noon, 41, false]);
  expect(shown && endedBy(shown)).toBeUndefined();

  const moved = at({ lat: 43, ended: noon + 1, outcome: "aboard" }, "me", { own: true });
  const [ended] = counting(foldAll([first, ...guest, moved]));
  expect(ended?.fields.get("lat")?.value).toBe(41);
  expect(ended && endedBy(ended)?.byName).toBe("me");

  // Whoever noted it says it of its own.
  const own = [at({ went: noon, lat: 41 }, "gus"), at({ lat: 42, ended: noon }, "gus")];
  const [guests] = counting(foldAll(own));
  expect([guests?.fields.get("lat")?.value, guests && endedBy(guests)?.by]).toEqual([42, "gus"]);
});

it("shows this phone's own case first, then the crew's, then guests', each the latest first", async () => {
  const { counting, you } = await withCrew();
  const one = (record: string, by: string, went: number, more: Partial<Stored> = {}) =>
    entry({ went }, { record, by, byName: by, ...more });
  const all = foldAll([
    one("guest's, of now", "gus", noon),
    one("crew's, earlier", crewsPhone, noon - 3000),
    one("crew's", crewsPhone, noon - 2000),
    one("own", "me", noon - 9000, { own: true }),
  ]);
  const order = () => counting(all).map(({ id }) => id);
  expect(order()).toEqual(["own", "crew's", "crew's, earlier", "guest's, of now"]);
  // An older server does not tell who is one of the crew: then the latest is first.
  if (you.value) you.value = { ...you.value, crew: undefined as never };
  expect(order()).toEqual(["own", "guest's, of now", "crew's", "crew's, earlier"]);
});

it("what a guest's phone presses is told as one, in whosever name; the crew's and one's own each", async () => {
  const { counting, together, you } = await withCrew();
  let ago = 0;
  const one = (record: string, by: string, more: Partial<Stored> = {}) =>
    entry({ went: noon - 1000 * ++ago }, { record, by, byName: by, ...more });
  const all = foldAll([
    one("gus 1", "gus"),
    one("gus 2", "gus"),
    one("kim", "kim"),
    one("gus in another's name", "nobody", { via: "gus", viaName: "Gus" }),
    one("crew 1", crewsPhone),
    one("crew 2", crewsPhone),
    one("crew's, brought by a guest", crewsPhone, { via: "gus", viaName: "Gus" }),
    one("own", "me", { own: true }),
  ]);
  const told = () => together(counting(all)).map((call) => call.map(({ id }) => id));
  expect(told()).toEqual([
    ["own"],
    ["crew 1"],
    ["crew 2"],
    ["crew's, brought by a guest"],
    // The first of them says when and where.
    ["gus in another's name", "gus 1", "gus 2"],
    ["kim"],
  ]);
  // Of an older server nobody is known for a guest.
  if (you.value) you.value = { ...you.value, crew: undefined as never };
  expect(told().every((call) => call.length === 1)).toBe(true);
});

it("tells of as many guests as there are, whoever brings what they noted after a restored backup", async () => {
  const { counting, together } = await withCrew();
  let ago = 0;
  const noted = (record: string, by: string, more: Partial<Stored> = {}) =>
    entry({ went: noon - 1000 * ++ago }, { record, by, byName: by, ...more });
  const brought = (record: string, by: string, more: Partial<Stored> = {}) =>
    noted(record, by, { via: crewsPhone, viaName: "Cem", ...more });
  const mark = "m";
  const all = foldAll([
    brought("gus 1", "gus", { mark }),
    brought("kim", "kim", { mark }),
    brought("gus 2", "gus", { mark }),
    // Again by themselves.
    noted("gus 3", "gus", { mark }),
    // By this phone, whether or not its server tells it for one of the crew's.
    brought("kim 2", "kim", { via: "me", mark }),
    // Without a mark it may be anybody's.
    brought("nobody's 1", "nobody"),
    brought("nobody's 2", "nobody"),
  ]);
  const told = together(counting(all)).map((call) => call.map(({ id }) => id));
  expect(told).toEqual([["gus 3", "gus 1", "gus 2"], ["kim 2", "kim"], ["nobody's 1"], ["nobody's 2"]]);

  // What they propose is theirs alike: leaving all of one phone leaves nobody else's.
  const { byPhone } = await import("../crew/role");
  const said = [
    brought("p1", "gus", { mark }),
    brought("p2", "kim", { mark }),
    brought("p3", "gus", { mark }),
  ];
  expect(byPhone(said, (one) => one).map((of) => of.map(({ record }) => record))).toEqual([
    ["p1", "p3"],
    ["p2"],
  ]);
});

it("tells of another guest's case as that one's, which a guest brought first, but of no key of its own making", async () => {
  const { counting, together, you } = await withCrew();
  let ago = 0;
  const brought = (record: string, by: string, more: Partial<Stored> = {}) =>
    entry(
      { went: noon - 1000 * ++ago },
      { record, by, byName: by, via: "gus", viaName: "Gus", mark: "m", ...more },
    );
  const all = foldAll([
    entry({ went: noon }, { record: "gus", by: "gus", byName: "gus" }),
    brought("kim", "kim"),
    brought("made up 1", "key 1"),
    brought("made up 2", "key 2"),
    brought("in kim's name", "kim", { mark: undefined as never }),
  ]);
  const told = () => together(counting(all)).map((call) => call.map(({ id }) => id).sort());
  if (you.value) you.value = { ...you.value, guests: ["gus", "kim"] };
  expect(told()).toEqual([["gus", "in kim's name", "made up 1", "made up 2"], ["kim"]]);
  // An older server does not tell who is aboard as a guest.
  if (you.value) you.value = { ...you.value, guests: undefined as never };
  expect(told()).toHaveLength(1);
});

it("what a guest noted far from here, or a phone that was shut out, is told after all that is plausible", async () => {
  const { counting, together, lastFix, you } = await withCrew();
  const { doubtOf } = await import("./doubt");
  if (you.value) you.value = { ...you.value, guests: ["gwen", "gus", "near"] };
  lastFix.value = taken(0);
  let ago = 0;
  const one = (record: string, by: string, lat: number, more: Partial<Stored> = {}) =>
    entry({ went: noon - 1000 * ++ago, lat, lon: -71.5 }, { record, by, byName: by, no: ago, ...more });
  const all = foldAll([
    one("shut out", "gone", 41.25),
    // A minute of latitude is a sea mile: by what one is.
    one("far", "gus", 41.25 + 4 / 60),
    one("2 nm off", "near", 41.25 + 2 / 60),
    one("shut out, of its own time", "gone", 42),
    one("by its own crew, far", crewsPhone, 10),
    one("by this guest's phone", "gwen", 41.25),
    one("by it, far", "gwen", 10),
    one("without a place", "gus", 41.25, { set: { went: noon - 90_000 } }),
    one("own, far", "me", 10, { own: true }),
  ]);
  const told = () => together(counting(all)).map((call) => call.map(({ id }) => id));
  expect(told()).toEqual([
    ["own, far"],
    ["by its own crew, far"],
    ["without a place", "far"],
    ["2 nm off"],
    ["by this guest's phone", "by it, far"],
    ["shut out, of its own time", "shut out"],
  ]);
  const doubts = Object.fromEntries(all.map((record) => [record.id, doubtOf(record)]));
  expect(doubts).toEqual({
    ...Object.fromEntries(all.map(({ id }) => [id, undefined])),
    "shut out": "shut out",
    "shut out, of its own time": "shut out",
    far: expect.closeTo(4 * 1852, -2),
    "by it, far": expect.closeTo(31.25 * 60 * 1852, -5),
  });

  // She may have come from there since, but not in any time that somebody says.
  const since = (hours: number) =>
    doubtOf(
      foldAll([
        one("ago", "gus", 41.25 + 60 / 60, {
          set: { went: noon - hours * 3600_000, lat: 42.25, lon: -71.5 },
        }),
      ])[0] as Folded,
    );
  expect(since(0.5)).toBeCloseTo(60 * 1852, -3);
  expect(since(1.5)).toBeUndefined();
  const long = one("long ago", "gus", 0, { set: { went: noon - 15 * 3600_000, lat: 44.25, lon: -71.5 } });
  expect(doubtOf(foldAll([long])[0] as Folded)).toBeCloseTo(180 * 1852, -3);
  // Of the only guest's phone, shut out, the server tells that there is none.
  if (you.value) you.value = { ...you.value, guests: [] };
  expect(doubtOf(foldAll([one("near", "near", 41.25)])[0] as Folded)).toBe("shut out");
  if (you.value) you.value = { ...you.value, guests: ["gwen", "gus", "near"] };

  // Where this phone does not know its own place, or not of late, no place is far from it.
  for (const fix of [undefined, taken(3_600_000)]) {
    lastFix.value = fix;
    expect(all.filter((record) => typeof doubtOf(record) === "number")).toEqual([]);
  }
  // An older server tells nobody for shut out.
  if (you.value) you.value = { ...you.value, guests: undefined as never };
  expect(all.map(doubtOf).filter((doubt) => doubt !== undefined)).toEqual([]);
});

it("a guest's case calls nobody once its trip is closed, the crew's does, and both stay in the notes", async () => {
  const { you, open, cases, keepOverboard } = await withCrew();
  const log = await theLog();
  vi.stubGlobal("navigator", {});
  const who = you.value;
  const trip = "5b0e8c1a-42d7-4d6f-9a53-0c1f2e3d4b5a";
  const at = (id: string, kind: string, record: string, set: object, by: string, no: number) => ({
    ...{ id, record, kind, trip, prev: [], set: { ...set }, at: noon, n: no, no, by, byName: by },
  });
  const put = async (entries: object[]) =>
    log.book.take(await log.book.batch(200, 1e6), {
      cursor: { epoch: "e", since: 9, check: "", more: false },
      ...{ taken: [], refused: [], spoilt: [], entries: entries as never, you: who as never },
    });
  await put([
    at("01997c3e-9b2a-7c41-8f0e-3d5a1b6c7d81", "trip", trip, { opened: noon - 1000 }, crewsPhone, 1),
    at(
      "01997c3e-9b2a-7c41-8f0e-3d5a1b6c7d82",
      "overboard",
      "c2a9f0d4-7b1e-4f38-8e65-9d0b1a2c3f41",
      { went: noon },
      "gus",
      2,
    ),
    at(
      "01997c3e-9b2a-7c41-8f0e-3d5a1b6c7d83",
      "overboard",
      "c2a9f0d4-7b1e-4f38-8e65-9d0b1a2c3f42",
      { went: noon },
      crewsPhone,
      3,
    ),
  ]);
  await log.loadLog();
  keepOverboard();
  const by = (all: { entries: Stored[] }[]) => all.map(({ entries }) => entries[0]?.by);
  await vi.waitFor(() => expect(by(open.value)).toEqual([crewsPhone, "gus"]));
  await log.sayOfTrip(trip, { closed: noon });
  await vi.waitFor(() => expect(by(open.value)).toEqual([crewsPhone]));
  expect(by(cases.value)).toEqual([crewsPhone, "gus"]);
});
