import { describe, expect, it } from "vitest";
import type { Coming } from "../../base/desk/types/rise.gen";
import { settings } from "../../base/units/settings";
import { recent, withSounding } from "./soundings";
import { ordersOf, type Warning, warningOf } from "./warning";

const ft = 0.3048;

describe("soundings", () => {
  const all = [
    { depth: 14, at: 50_000 },
    { depth: 15, at: 20_000 },
  ];

  it("are kept with when they were read, the latest first", () => {
    expect(withSounding(all, 13, 60_000)).toEqual([{ depth: 13, at: 60_000 }, ...all]);
  });

  it("are one while it is being stepped to", () => {
    expect(withSounding(all, 13, 50_300)).toEqual([{ depth: 13, at: 50_300 }, all[1]]);
  });

  it("are let go of when every lure has passed, or the clock was set back", () => {
    expect(recent(all, 930_000)).toEqual([all[0]]);
    expect(recent(all, 40_000)).toEqual([all[1]]);
  });
});

describe("what is warned of", () => {
  const coming: Coming = {
    verdict: "touches",
    astern: 70,
    lag: 40,
    over: 0,
    aside: 0,
    depth: { low: 11, mid: 12, high: 13 },
    from: 0,
    until: 40,
    in: 25,
    shoalest: 11,
    shoalestIn: 30,
    lineIn: 29.9 * ft,
    speed: 1.9,
  };
  const kn = 1852 / 3600;
  const of = (...rods: Partial<Coming>[]) =>
    warningOf({ rods: rods.map((rod) => ({ ...coming, ...rod })) }, 15);

  it("is a lure that will touch, the first one first, and the speed that lifts all", () => {
    expect(of({}, { in: 10, shoalest: 10, speed: 2.2 }, { verdict: "stays clear", lineIn: 0 })).toEqual({
      depth: 10,
      speed: expect.closeTo(4.3 * kn),
      rods: [
        { rod: 1, touches: true, in: 10, lineIn: 30 * ft },
        { rod: 0, touches: true, in: 25, lineIn: 30 * ft },
      ],
    });
    expect(of({}, { speed: 0 })?.speed).toBe(0);
    // One that only comes close and that no speed lifts leaves those that touch their order.
    const close = { verdict: "comes close", shoalest: 14, lineIn: 2, speed: 0 } as const;
    expect(of({}, close)?.speed).toBeCloseTo(3.7 * kn);
    // What is told, in tenths of a knot, is fast enough; a tenth as it is stays that.
    expect(of({ speed: 3.61 * kn })?.speed).toBeCloseTo(3.7 * kn);
    expect(of({ speed: 3.7 * kn })?.speed).toBeCloseTo(3.7 * kn);
    expect(of({ ...close, shoalest: 13 })?.speed).toBe(0);
  });

  it("names no rod without an order for it", () => {
    const orders = (...rods: Partial<Coming>[]) => ordersOf(of(...rods) as Warning);
    // The one that comes close sooner rides above the margin already: there is nothing to do for it.
    const close = {
      verdict: "comes close",
      in: 5,
      shoalest: 12.6,
      shoalestIn: 5,
      lineIn: 0,
      speed: 0,
    } as const;
    expect(orders(close, {})).toMatchObject({ first: { rod: 1 }, whole: [], ready: false });
    expect(orders(close)).toMatchObject({ first: { rod: 0 }, whole: [], ready: true });
    const stuck = { lineIn: 0, speed: 0 };
    expect(orders(stuck, { in: 30 }, { ...stuck, in: 40 })).toMatchObject({
      first: { rod: 0 },
      whole: [1, 3],
      ready: false,
    });
    // A speed lifts all of them.
    expect(orders({ lineIn: 0 })).toMatchObject({ first: { rod: 0 }, whole: [], ready: false });
  });

  it("is a lure on the bottom too where that rises, after those that still run clear; what lifts all lifts it", () => {
    const lying = { depth: { low: 14, mid: 15.2, high: 17 }, in: 0 };
    // Nobody takes in a hand of line.
    expect(of({ ...coming, lineIn: 0.1 })?.rods.map(({ lineIn }) => lineIn)).toEqual([4 * ft]);
    expect(of({ ...coming, lineIn: 0 })?.rods.map(({ lineIn }) => lineIn)).toEqual([0]);
    // Up to the next whole step that is told of each unit, by hand: 9.1 m, 4.976 fm, and of less than one a fifth of it.
    const fm = 6 * ft;
    for (const [line, out, told] of [
      ["m", 9.1, 10],
      ["m", 0.1, 1],
      ["fm", 9.1, 5 * fm],
      ["fm", 0.1, 0.6 * fm],
    ] as const) {
      settings.set({ ...settings.value, units: { ...settings.value.units, line } });
      expect(of({ ...coming, lineIn: out })?.rods[0]?.lineIn, `${out} m in ${line}`).toBeCloseTo(told, 9);
    }
    settings.set({ ...settings.value, units: { ...settings.value.units, line: "ft" } });
    expect(of({ ...lying, speed: 2.4, lineIn: 75.2 * ft }, { speed: 2 })).toEqual({
      depth: 11,
      speed: expect.closeTo(4.7 * kn),
      rods: [
        { rod: 1, touches: true, in: 25, lineIn: 30 * ft },
        { rod: 0, touches: true, in: 0, lineIn: 80 * ft },
      ],
    });
    // Nobody else need touch; who may takes in as well.
    expect(of({}, { verdict: "comes close", shoalest: 14, lineIn: 2 })?.rods).toMatchObject([
      { rod: 0 },
      { rod: 1, touches: false, lineIn: 10 * ft },
    ]);
    expect(of(lying, { verdict: "stays clear", lineIn: 0 })?.rods).toHaveLength(1);
    // Less of a rise is told with that of another, and not alone.
    expect(of({ ...lying, shoalest: 14.4, speed: 2.4 })).toBeUndefined();
    expect(of({ ...lying, shoalest: 14.4, speed: 2.4 }, {})).toMatchObject({
      speed: expect.closeTo(4.7 * kn),
      rods: [{}, { rod: 0 }],
    });
  });

  it("is not what Lines tells already: a lure on the bottom, or one that may touch at any time", () => {
    expect(of({ depth: { low: 14, mid: 15.2, high: 17 }, shoalest: 14.5 })).toBeUndefined();
    expect(of({ verdict: "comes close", shoalest: 14.5 })).toBeUndefined();
    expect(of({ verdict: "comes close", shoalest: 13 })?.rods[0]).toMatchObject({ touches: false, in: 30 });
    expect(of({ verdict: "not sounded" })).toBeUndefined();
    // The depth where the lure is counts before what is set, which may be the ground that is coming.
    expect(of({ depth: { low: 14, mid: 15.2, high: 17 }, over: 20 })?.rods).toHaveLength(1);
    expect(of({ over: 11.5 })).toBeUndefined();
    // While Bottom follows the boat and it is not known yet where the lure is, only what touches is told.
    const followed = (rod: Partial<Coming>) => warningOf({ rods: [{ ...coming, ...rod }] }, Infinity);
    expect(followed({ depth: { low: 14, mid: 15.2, high: 17 } })?.rods).toHaveLength(1);
    expect(followed({ verdict: "comes close" })).toBeUndefined();
  });
});
