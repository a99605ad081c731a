import { beforeEach, expect, it, vi } from "vitest";
import { forecast, judged, limits, verdict } from "./weather";

const today = { wind: 6, sea: 0.9, sight: 9000, warning: false, at: 0 };

beforeEach(() => {
  limits.signal.value = { wind: 8, sea: 1.2, sight: 4000 };
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
  limits.signal.value = { wind: 0, sea: 0, sight: 0 };
  expect(verdict.value).toBe("unknown");
  limits.signal.value = { wind: 8, sea: 0, sight: 0 };
  expect(verdict.value).toBe("go");
  forecast.signal.value = { ...today, at: Date.now(), wind: 0 };
  expect([verdict.value, judged.value.open]).toEqual(["unknown", ["wind"]]);
  vi.useFakeTimers({ now: Date.now() + 24 * 3600_000 });
  forecast.signal.value = { ...today, at: Date.now() - 24 * 3600_000 };
  expect(verdict.value).toBe("unknown");
  vi.useRealTimers();
});
