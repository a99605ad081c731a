import { afterEach, beforeEach, expect, it, vi } from "vitest";

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["performance", "Date"] });
  vi.stubGlobal("isSecureContext", true);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

let fixes = 0;
/** A fix of this moment, a little after the one before. */
const at = (coords: object, timestamp = Date.now() + fixes++ / 1000) =>
  ({
    timestamp,
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

it("takes a fix that is handed out again for as old as it is", async () => {
  const { position, take } = await import("./position");
  take(at({ speed: 1.6 }, 5000));
  vi.advanceTimersByTime(60_000);
  take(at({ speed: 1.6 }, 5000));
  expect(position()).toMatchObject({ fixAge: 60 });
  // One that was kept back for 30 s, by a receiver whose clock is hours off.
  take(at({ speed: 1.7 }, 35_000));
  expect(position()).toMatchObject({ fixAge: 30 });
});

it("takes a receiver that says to move and stays where it is for frozen", async () => {
  const { position, take } = await import("./position");
  take(at({ speed: 1.6, heading: 90 }));
  vi.advanceTimersByTime(60_000);
  take(at({ speed: 1.6, heading: 90 }));
  expect(position()).toMatchObject({ fixAge: 60 });
  // At anchor nothing changes, and is still so.
  take(at({ speed: 0 }));
  vi.advanceTimersByTime(60_000);
  take(at({ speed: 0 }));
  expect(position()).not.toHaveProperty("fixAge");
});

it("counts the time that the phone slept, and is not made younger by a clock set back", async () => {
  const { position, take } = await import("./position");
  take(at({ speed: 1.6 }));
  vi.setSystemTime(Date.now() + 120_000);
  expect(position()).toMatchObject({ fixAge: 120 });
  take(at({ speed: 1.7 }));
  vi.setSystemTime(Date.now() - 3600_000);
  vi.advanceTimersByTime(60_000);
  expect(position().fixAge).toBeGreaterThanOrEqual(60);
});

it("follows the receiver as long as anybody asks, and says how it stands", async () => {
  const cleared = vi.fn();
  let heard: [(fix: never) => void, (fault: { code: number }) => void] | undefined;
  const watch = vi.fn((...both: NonNullable<typeof heard>) => {
    heard = both;
    return 7;
  });
  vi.stubGlobal("navigator", { geolocation: { watchPosition: watch, clearWatch: cleared } });
  const { receiver, watchPosition } = await import("./position");
  const [one, two] = [watchPosition(), watchPosition()];
  expect([watch.mock.calls.length, receiver.value]).toEqual([1, "asking"]);
  heard?.[0](at({}));
  expect(receiver.value).toBe("on");
  heard?.[1]({ code: 3 });
  expect(receiver.value).toBe("on");
  heard?.[1]({ code: 1 });
  expect(receiver.value).toBe("refused");
  const three = watchPosition();
  expect([watch.mock.calls.length, receiver.value]).toEqual([2, "asking"]);
  one();
  one();
  two();
  expect(receiver.value).toBe("asking");
  three();
  expect([cleared.mock.calls.length, receiver.value]).toEqual([2, "resting"]);
});
