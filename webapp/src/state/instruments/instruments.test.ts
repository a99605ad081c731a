import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { limits } from "../../base/desk/types/rise.gen";

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["Date", "performance", "setTimeout", "clearTimeout"], now: 1_000_000 });
  vi.stubGlobal("BroadcastChannel", undefined);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const depth = (value: number, more: object = {}) => ({
  value,
  age: 0.2,
  holds: 4,
  from: "SD mast",
  below: "surface",
  state: "known",
  doubt: 0.2,
  slope: 0,
  ...more,
});
const speed = { value: 1.7, age: 0, holds: 3, from: "VW mast" };
const event = (of: object) => JSON.stringify({ values: {}, run: 0, ...of });

describe("what is heard", () => {
  it("is believed no longer than it holds", async () => {
    const { heard, readEvent, depthHeard, valueHeard, second } = await import("./heard");
    heard.value = readEvent(event({ depth: depth(15), values: { waterSpeed: speed } }));
    expect(depthHeard.value?.value).toBe(15);
    expect(valueHeard("waterSpeed")?.value).toBe(1.7);
    vi.advanceTimersByTime(3100);
    second.value++;
    expect(valueHeard("waterSpeed")).toBeUndefined();
    expect(depthHeard.value?.age).toBeCloseTo(3.3);
    vi.advanceTimersByTime(800);
    second.value++;
    expect(depthHeard.value).toBeUndefined();
  });

  it("is no depth before the bottom is found", async () => {
    const { heard, readEvent, depthHeard } = await import("./heard");
    heard.value = readEvent(event({ depth: depth(0, { state: "seeking" }) }));
    expect(depthHeard.value).toBeUndefined();
  });

  it("is read with what a later server may say besides, and never when it is unsound", async () => {
    const { readEvent, readPast } = await import("./heard");
    expect(readEvent(event({ more: 1, depth: depth(3, { hardness: 2 }) }))?.depth?.value).toBe(3);
    for (const text of ["", "{", "[]", "null", event({ run: "far" }), event({ depth: depth(Number.NaN) })])
      expect(readEvent(text), text).toBeUndefined();
    expect(readPast(JSON.stringify({ ages: [1], depths: [], runs: [] }))).toBeUndefined();
  });
});

describe("readings for the rise", () => {
  it("are one a second, the latest first, and no older than any line is long", async () => {
    const { pings, notePing } = await import("./pings");
    const { readEvent } = await import("./heard");
    for (let i = 0; i < 700; i++) {
      notePing(readEvent(event({ depth: depth(10 + i / 100), run: i })) as never);
      vi.advanceTimersByTime(500);
    }
    expect(pings.value.length).toBeGreaterThan(290);
    expect(pings.value.length).toBeLessThan(305);
    expect(pings.value[0]?.depth).toBeCloseTo(16.98);
    expect(pings.value[0]?.run).toBe(698);
  });

  it("that came while nobody listened are put between, and those of before the server began anew are none", async () => {
    const { pings, notePing, notePast } = await import("./pings");
    const { readEvent } = await import("./heard");
    notePing(readEvent(event({ depth: depth(20), run: 100 })) as never);
    vi.advanceTimersByTime(10_000);
    notePast({ ages: [5, 3], depths: [18, 17], runs: [110, 113] });
    notePing(readEvent(event({ depth: depth(16), run: 118 })) as never);
    expect(pings.value.map((one) => one.depth)).toEqual([16, 17, 18, 20]);
    vi.advanceTimersByTime(2000);
    notePing(readEvent(event({ depth: depth(15), run: 2 })) as never);
    expect(pings.value.map((one) => one.depth)).toEqual([15]);
    // One that has no speed to count by is the same server still, and where it counts on from less it is another.
    for (const [run, length] of [
      [-1, 2],
      [3, 3],
      [-1, 4],
      [0, 1],
    ] as const) {
      vi.advanceTimersByTime(2000);
      notePing(readEvent(event({ depth: depth(15), run })) as never);
      expect(pings.value, String(run)).toHaveLength(length);
    }
  });
});

describe("where the boat has gone", () => {
  const turn = async (rate: number, more: { from?: number; seconds?: number; course?: boolean } = {}) => {
    const { noteHeading, coursesNow } = await import("./turning");
    const { readEvent } = await import("./heard");
    const { from = 0, seconds = 40, course = false } = more;
    for (let i = 0; i < seconds * 2; i++) {
      const value = (((from + (rate * i) / 2) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
      const name = course ? "groundCourse" : "heading";
      noteHeading(
        readEvent(event({ values: { [name]: { value, age: 0.1, holds: 3, from: "HC" } } })) as never,
      );
      vi.advanceTimersByTime(500);
    }
    return coursesNow;
  };

  it("is told second by second, through north too", async () => {
    const { courses = [], compass } = (await turn(0.02, { from: 6 }))() ?? {};
    expect(compass).toBe(true);
    expect(courses).toHaveLength(40);
    // 39 s at 0.02 rad/s.
    expect((courses[0]?.toward ?? 0) - (courses[39]?.toward ?? 0)).toBeCloseTo(0.78);
    expect((courses[39]?.age ?? 0) - (courses[0]?.age ?? 0)).toBeCloseTo(39);
  });

  it("is over ground where there is no compass, and from one to the other she has not turned by what they differ", async () => {
    expect((await turn(-0.04, { from: 0.5, course: true }))()?.compass).toBe(false);
    const { courses, compass } = (await turn(0, { from: 2, seconds: 10 }))() ?? {};
    expect(compass).toBe(true);
    expect(courses?.every(({ toward }) => toward === 2)).toBe(true);
  });

  it("is told within what the desk takes after hours in circles, too", async () => {
    const { max } = limits.Course.toward;
    const { courses = [] } = (await turn(1, { seconds: max + 100 }))() ?? {};
    expect(courses).toHaveLength(limits.Query.courses.most);
    expect(Math.max(...courses.map(({ toward }) => Math.abs(toward)))).toBeLessThan(max);
    expect((courses[0]?.toward ?? 0) - (courses[9]?.toward ?? 0)).toBeCloseTo(9);
  });

  it("is not told any more once it is not heard", async () => {
    const now = await turn(0.02);
    vi.advanceTimersByTime(5000);
    expect(now()).toBeUndefined();
  });
});

class Fake {
  static all: Fake[] = [];
  onmessage: ((event: MessageEvent) => void) | null = null;
  onerror: ((event: Event) => void) | null = null;
  closed = false;
  readyState = 0;
  past: ((event: MessageEvent) => void) | undefined;
  constructor(readonly after: string) {
    Fake.all.push(this);
  }
  addEventListener(_: string, take: (event: MessageEvent) => void) {
    this.past = take;
  }
  close() {
    this.closed = true;
  }
  /** The network fails: the browser would connect again. */
  fail() {
    this.onerror?.({} as Event);
  }
  /** The server answers with anything but a stream (HTML, 9.2.3). */
  refuse() {
    this.readyState = 2;
    this.onerror?.({} as Event);
  }
  say(data: string, lastEventId = "") {
    this.onmessage?.({ data, lastEventId } as MessageEvent);
  }
}

describe("the line to the server", () => {
  const begin = async () => {
    Fake.all = [];
    const { Listener } = await import("./stream");
    const listener = new Listener((after) => new Fake(after));
    listener.listen();
    return listener;
  };
  const [last] = [() => Fake.all.at(-1) as Fake];

  it("that falls silent is begun anew, from where it broke off, later and later", async () => {
    await begin();
    last().say(event({ depth: depth(15) }), "1700");
    vi.advanceTimersByTime(4400);
    expect(Fake.all).toHaveLength(1);
    vi.advanceTimersByTime(200);
    expect(last().closed).toBe(true);
    vi.advanceTimersByTime(1000);
    expect(Fake.all).toHaveLength(2);
    expect(last().after).toBe("1700");
    last().onerror?.({} as Event);
    vi.advanceTimersByTime(1900);
    expect(Fake.all).toHaveLength(2);
    vi.advanceTimersByTime(200);
    expect(Fake.all).toHaveLength(3);
  });

  it("to a server that hears no instruments, or knows nothing of them, is hardly ever tried again", async () => {
    const listener = await begin();
    last().refuse();
    listener.reached();
    vi.advanceTimersByTime(299_000);
    expect(Fake.all).toHaveLength(1);
    vi.advanceTimersByTime(2000);
    expect(Fake.all).toHaveLength(2);
  });

  it("to a server that is out of reach is tried again soon, and at once when it was reached otherwise", async () => {
    const listener = await begin();
    for (const pause of [1000, 2000, 4000, 8000, 15_000, 15_000]) {
      const before = Fake.all.length;
      last().fail();
      vi.advanceTimersByTime(pause - 100);
      expect(Fake.all).toHaveLength(before);
      vi.advanceTimersByTime(200);
      expect(Fake.all).toHaveLength(before + 1);
    }
    const before = Fake.all.length;
    last().fail();
    listener.reached();
    expect(Fake.all).toHaveLength(before + 1);
    // It listens already, and is not begun twice.
    listener.reached();
    vi.advanceTimersByTime(9000);
    expect(Fake.all).toHaveLength(before + 1);
  });

  it("that hangs before the first word is begun anew", async () => {
    await begin();
    vi.advanceTimersByTime(10_100);
    expect(last().closed).toBe(true);
    vi.advanceTimersByTime(1000);
    expect(Fake.all).toHaveLength(2);
    expect(last().closed).toBe(false);
  });

  it("is let go when nobody looks", async () => {
    const listener = await begin();
    last().say(event({}));
    listener.stop();
    expect(last().closed).toBe(true);
    vi.advanceTimersByTime(1_000_000);
    expect(Fake.all).toHaveLength(1);
  });
});

describe("what the app goes by", () => {
  const start = async () => {
    const heard = await import("./heard");
    const taken = await import("./taken");
    const { spread } = await import("../spread/spread");
    const { sampleSpread } = await import("../spread/sample");
    spread.signal.value = sampleSpread;
    taken.keepTaking();
    const say = (of: object) => {
      heard.heard.value = heard.readEvent(event(of));
    };
    return { ...heard, ...taken, spread, say };
  };

  it("is nothing before somebody has said so", async () => {
    const { say, spread, lost, second } = await start();
    const before = spread.value.bottom;
    say({ depth: depth(before + 5) });
    expect(spread.value.bottom).toBe(before);
    vi.advanceTimersByTime(10_000);
    second.value++;
    expect(lost.value).toEqual([]);
  });

  it("is the depth, in steps, until it is set by hand", async () => {
    const { say, spread, take, taken, letGo } = await start();
    take({ depth: true });
    // In feet, as it is stepped.
    const feet = () => spread.value.bottom / 0.3048;
    say({ depth: depth(20.04) });
    expect(feet()).toBeCloseTo(66);
    say({ depth: depth(21) });
    expect(feet()).toBeCloseTo(66);
    vi.advanceTimersByTime(3100);
    say({ depth: depth(21) });
    expect(feet()).toBeCloseTo(69);
    vi.advanceTimersByTime(3100);
    say({ depth: depth(21.2) });
    expect(feet()).toBeCloseTo(69);
    letGo("depth");
    expect(taken.value.depth).toBe(false);
  });

  it("is missed when it does not come any more, until that is noted, and gone by again when it comes", async () => {
    const { say, take, lost, noteLost, second, spread } = await start();
    take({ depth: true });
    say({ depth: depth(20) });
    expect(lost.value).toEqual([]);
    vi.advanceTimersByTime(4100);
    second.value++;
    expect(lost.value.map(({ part }) => part)).toEqual(["depth"]);
    expect(spread.value.bottom / 0.3048).toBeCloseTo(66);
    noteLost();
    expect(lost.value).toEqual([]);
    say({ depth: depth(12) });
    expect(spread.value.bottom / 0.3048).toBeCloseTo(39);
    vi.advanceTimersByTime(4100);
    second.value++;
    expect(lost.value.map(({ part }) => part)).toEqual(["depth"]);
  });

  it("leaves more in doubt once it is lost: what the tide has changed since", async () => {
    const { say, take, spread, second } = await start();
    const { bottomNow } = await import("../spread/request");
    const before = spread.value.tideDoubt;
    expect(before).toBeGreaterThan(0);
    say({ depth: depth(20) });
    expect(bottomNow(spread.value).tideDoubt).toBe(before);
    take({ depth: true });
    expect(bottomNow(spread.value).tideDoubt).toBe(0);
    vi.advanceTimersByTime(4100);
    second.value++;
    expect(bottomNow(spread.value).tideDoubt).toBe(before);
  });

  it("is the water's temperature for the ice too, until that is set by hand", async () => {
    const { say, take, letGo, warmthNow } = await start();
    const { iceQuery } = await import("../fish/ice");
    take({ warmth: true });
    const warm = (value: number) =>
      say({ values: { waterTemperature: { value, age: 0, holds: 60, from: "YX" } } });
    warm(21.7);
    expect(iceQuery().sea).toBe(21.5);
    expect(iceQuery().fish?.map(({ temperature }) => temperature)).toEqual([21.5, 21.5]);
    expect(warmthNow()?.value).toBe(21.7);
    letGo("warmth");
    expect(warmthNow()).toBeUndefined();
    warm(12);
    expect(iceQuery().sea).toBe(21.5);
  });

  it("is the water's temperature, in half degrees", async () => {
    const { say, take } = await start();
    const { water } = await import("../spread/water");
    take({ warmth: true });
    say({ values: { waterTemperature: { value: 21.7, age: 0, holds: 60, from: "YX mast" } } });
    expect(water.value.temperature).toBe(21.5);
  });
});
