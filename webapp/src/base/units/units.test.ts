import { describe, expect, it } from "vitest";
import { fromSi, honestStep, inSi, parse, roundTo, scaleOf, stepped, toSi, type Units } from "./units";

const american: Units = { depth: "ft", line: "ft", weight: "oz", pull: "lb", temperature: "°F" };
const metric: Units = { depth: "m", line: "m", weight: "g", pull: "kg", temperature: "°C" };

describe("conversion factors", () => {
  // NIST Special Publication 811 (2008), appendix B.8 and B.9, seven significant digits as printed there.
  // Its fathom is based on the US survey foot, which is 2 parts in a million longer than ours of 6 ft exactly.
  it.each([
    ["ft", 3.048e-1, 1e-9],
    ["fm", 1.828804, 3e-6],
    ["in", 2.54e-2, 1e-9],
    ["oz", 2.834952e-2, 5e-7],
    ["lb", 4.448222, 5e-7],
    ["kg", 9.80665, 1e-9],
    ["kn", 5.144444e-1, 5e-7],
    ["°", 1.745329e-2, 5e-7],
    ["g/cm³", 1e3, 1e-9],
    ["mm²/s", 1e-6, 1e-9],
    ["L", 1e-3, 1e-9],
    ["qt", 9.463529e-4, 5e-7],
  ] as const)("%s", (unit, factor, tolerance) => {
    expect(Math.abs(inSi[unit] / factor - 1)).toBeLessThan(tolerance);
  });

  // NIST Special Publication 811 (2008), appendix B.8: t/°C = (t/°F − 32)/1.8. The points are those of its scale
  // that everybody knows, the fixed point where both read the same, and body heat by the same formula.
  it.each([
    [32, 0],
    [212, 100],
    [-40, -40],
    [59, 15],
    [98.6, 37],
  ])("%d °F is %d °C", (fahrenheit, celsius) => {
    expect(toSi(fahrenheit, "°F")).toBeCloseTo(celsius, 10);
    expect(fromSi(celsius, "°F")).toBeCloseTo(fahrenheit, 10);
    expect(toSi(celsius, "°C")).toBe(celsius);
  });

  it("there and back is the same number", () => {
    for (const unit of Object.keys(inSi) as (keyof typeof inSi)[]) {
      expect(fromSi(toSi(37.5, unit), unit)).toBeCloseTo(37.5, 10);
    }
  });

  it("every quantity has a scale in all units", () => {
    for (const units of [american, metric]) {
      for (const q of [
        "depth",
        "line",
        "weight",
        "pull",
        "thin",
        "size",
        "speed",
        "temperature",
        "viscosity",
        "volume",
      ] as const) {
        expect(scaleOf(q, units).step).toBeGreaterThan(0);
      }
    }
    expect(scaleOf("line", { ...american, line: "fm" }).unit).toBe("fm");
  });
});

describe("steps", () => {
  it("land on the grid of the unit", () => {
    const scale = scaleOf("line", american);
    expect(fromSi(stepped(toSi(200, "ft"), 1, scale), "ft")).toBeCloseTo(205, 9);
    expect(fromSi(stepped(toSi(203, "ft"), 1, scale), "ft")).toBeCloseTo(205, 9);
    expect(fromSi(stepped(toSi(203, "ft"), -1, scale), "ft")).toBeCloseTo(200, 9);
  });

  it("land on whole degrees of the scale shown, below nought too", () => {
    const [warm, cold] = [scaleOf("temperature", american), scaleOf("temperature", metric)];
    expect(fromSi(stepped(toSi(58.5, "°F"), 1, warm), "°F")).toBeCloseTo(59, 9);
    expect(fromSi(stepped(toSi(32, "°F"), -1, warm), "°F")).toBeCloseTo(31, 9);
    expect(stepped(0, -1, cold)).toBe(-0.5);
  });

  it("do not creep over a thousand taps", () => {
    const scale = scaleOf("speed", american);
    let speed = toSi(3.2, "kn");
    for (let i = 0; i < 1000; i++) speed = stepped(speed, i % 2 ? 1 : -1, scale);
    expect(fromSi(speed, "kn")).toBeCloseTo(3.2, 9);
  });
});

describe("rounding as honest as the band", () => {
  it.each([
    [25, 5],
    [11, 1],
    [4, 1],
    [1.2, 0.5],
    [0.3, 0.1],
  ])("half width %d is shown in steps of %d", (half, step) => expect(honestStep(half)).toBe(step));

  it("leaves no binary dust", () => expect(String(roundTo(0.1 + 0.2, 0.1))).toBe("0.3"));
});

describe("typed numbers", () => {
  it.each([
    ["3.2", 3.2],
    ["3,2", 3.2],
    [" 1,200 ", 1200],
    ["1 200", 1200],
    ["0,022", 0.022],
    ["−4", -4],
    [".5", 0.5],
  ])("%s", (typed, number) => expect(parse(typed)).toBe(number));

  it.each(["", "abc", "3.2.1", "1e9", "Infinity", "NaN", "12 ft", "0x10", "--3"])("refuses “%s”", (typed) =>
    expect(parse(typed)).toBeUndefined(),
  );

  it.each([
    ["3,2", 3.2],
    ["1,234", 1.234],
    ["1.234", 1234],
    ["12.345,6", 12345.6],
    ["0.013", 0.013],
    ["3.2", 3.2],
  ])("reads “%s” where commas mark decimals", (typed, number) => expect(parse(typed, ",")).toBe(number));
});
