import { afterEach, beforeEach, expect, it, vi } from "vitest";

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["performance"] });
});
afterEach(() => vi.useRealTimers());

const at = (coords: object) =>
  ({
    coords: { latitude: 41.25, longitude: -71.5, accuracy: 5, speed: null, heading: null, ...coords },
  }) as never;

it("is nothing before there is a fix", async () => {
  const { position } = await import("./position");
  expect(position()).toEqual({});
});

it("has speed and course only of this moment, and no place that is long past", async () => {
  const { position, take } = await import("./position");
  take(at({ speed: 1.6, heading: 90 }));
  expect(position()).toEqual({ lat: 41.25, lon: -71.5, accuracy: 5, sog: 1.6, cog: Math.PI / 2 });
  vi.advanceTimersByTime(60_000);
  expect(position()).toEqual({ lat: 41.25, lon: -71.5, accuracy: 5, fixAge: 60 });
  vi.advanceTimersByTime(600_000);
  expect(position()).toEqual({});
});

it("leaves out what the receiver does not know, and what is no number", async () => {
  const { position, take } = await import("./position");
  take(at({ speed: 0, heading: Number.NaN }));
  expect(position()).toEqual({ lat: 41.25, lon: -71.5, accuracy: 5, sog: 0 });
  take(at({ latitude: Number.NaN }));
  expect(position()).toMatchObject({ lat: 41.25 });
});
