import "fake-indexeddb/auto";
import { afterEach, expect, it, vi } from "vitest";
import { byBoat, clockAhead, isToCome, isTooEarly, latestNow } from "./clock";

afterEach(() => {
  vi.useRealTimers();
  clockAhead.signal.value = 0;
});

it("a time is still to come by the boat’s clock, whether this phone’s is right, ahead or behind", () => {
  const boat = Date.UTC(2031, 5, 1, 12);
  for (const ahead of [0, 24 * 3600_000, -24 * 3600_000]) {
    vi.useFakeTimers({ now: boat + ahead });
    clockAhead.signal.value = ahead;
    expect(isToCome(boat)).toBe(false);
    // Clocks that nobody would call wrong differ by minutes.
    expect(isToCome(boat + 5 * 60_000)).toBe(false);
    expect(isToCome(boat + 15 * 60_000)).toBe(true);
    expect(isToCome(boat - 24 * 3600_000)).toBe(false);
  }
});

it("a time before the trip is doubtful, but for the minutes by which right clocks differ", () => {
  const begun = Date.UTC(2031, 5, 1, 12);
  expect(isTooEarly(begun - 5 * 60_000, begun)).toBe(false);
  expect(isTooEarly(begun - 15 * 60_000, begun)).toBe(true);
  expect(isTooEarly(begun + 1, begun)).toBe(false);
  expect(isTooEarly(begun, undefined)).toBe(false);
});

it("now is the boat’s for what others note where this phone is behind, and a trip ends by it where this phone is ahead", () => {
  const boat = Date.UTC(2031, 5, 1, 12);
  const hours = 3600_000;
  for (const ahead of [0, 26 * hours, -26 * hours]) {
    vi.useFakeTimers({ now: boat + ahead });
    clockAhead.signal.value = ahead;
    expect(latestNow()).toBe(boat + Math.max(0, ahead));
    expect(byBoat(Date.now())).toBe(boat + Math.min(0, ahead));
  }
});
