import { beforeEach, expect, it, vi } from "vitest";
import { keptBoat, unknownBoat } from "./boat";
import { forecast, formerLimits, judged, limits, takeFormerLimits, verdict, type Weather } from "./weather";

const setLimits = ({ wind, sea, sight }: Weather) => {
  keptBoat.signal.value = { ...unknownBoat, mostWind: wind, mostSea: sea, leastSight: sight };
};

const today = { wind: 6, sea: 0.9, sight: 9000, warning: false, at: 0 };

beforeEach(() => {
  setLimits({ wind: 8, sea: 1.2, sight: 4000 });
  forecast.signal.value = { ...today, at: Date.now() };
});

it("goes within all limits, and stays beyond any", () => {
  expect(verdict.value).toBe("go");
  for (const [name, value] of [
    ["wind", 9],
    ["sea", 1.5],
    ["sight", 2000],
  ] as const) {
    forecast.signal.value = { ...today, at: Date.now(), [name]: value };
    expect([verdict.value, judged.value.beyond]).toEqual(["stay", [name]]);
  }
  forecast.signal.value = { ...today, at: Date.now(), warning: true };
  expect([verdict.value, judged.value.beyond]).toEqual(["stay", ["warning"]]);
});

it("judges nothing without limits, without a forecast for each, or by one of yesterday", () => {
  setLimits({ wind: 0, sea: 0, sight: 0 });
  expect(verdict.value).toBe("unknown");
  setLimits({ wind: 8, sea: 0, sight: 0 });
  expect(verdict.value).toBe("go");
  forecast.signal.value = { ...today, at: Date.now(), wind: 0 };
  expect([verdict.value, judged.value.open]).toEqual(["unknown", ["wind"]]);
  vi.useFakeTimers({ now: Date.now() + 24 * 3600_000 });
  forecast.signal.value = { ...today, at: Date.now() - 24 * 3600_000 };
  expect(verdict.value).toBe("unknown");
  vi.useRealTimers();
});

it("limits that an app of before kept on this phone go with the boat's from now on, once", () => {
  keptBoat.signal.value = { ...unknownBoat, name: "Heron", mostSea: 2 };
  formerLimits.signal.value = { wind: 8, sea: 1.2, sight: 4000 };
  // Not before it is known what is kept of the boat.
  takeFormerLimits();
  expect(limits.value).toEqual({ wind: 0, sea: 2, sight: 0 });
  keptBoat.found.value = true;
  takeFormerLimits();
  expect(limits.value).toEqual({ wind: 8, sea: 2, sight: 4000 });
  expect(keptBoat.value.name).toBe("Heron");
  keptBoat.signal.value = { ...keptBoat.value, mostWind: 6 };
  takeFormerLimits();
  expect(limits.value.wind).toBe(6);
});
