import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { now } from "../../../base/position/moment";
import { roughly, secondsSince, sinceWords, spanWords } from "./times";

beforeEach(() => {
  vi.useFakeTimers();
  vi.setSystemTime(new Date(2026, 6, 4, 12));
});
afterEach(() => vi.useRealTimers());

it("goes on", () => {
  const then = now();
  vi.advanceTimersByTime(95_000);
  expect(sinceWords(then)).toBe("95\u00a0s");
  vi.advanceTimersByTime(3600_000);
  expect(sinceWords(then)).toBe("1\u00a0h 1\u00a0min");
});

it("goes on while the phone sleeps, when its running clock stands still", () => {
  const then = now();
  vi.setSystemTime(Date.now() + 1800_000);
  expect(secondsSince(then)).toBeCloseTo(1800, 0);
});

it("neither stops nor runs backwards when the phone's clock is set back", () => {
  const then = now();
  vi.advanceTimersByTime(600_000);
  vi.setSystemTime(Date.now() - 7200_000);
  expect(secondsSince(then)).toBeCloseTo(600, 0);
});

it("goes by the clock after a restart, when the running clock has begun anew", () => {
  const before = { wall: Date.now() - 900_000, run: performance.now() + 5e6 };
  expect(secondsSince(before)).toBeCloseTo(900, 0);
  // Both clocks behind: nothing is known, and nothing is made up.
  expect(secondsSince({ wall: Date.now() + 1000, run: performance.now() + 1000 })).toBe(0);
});

it("is told in words that fit its length", () => {
  expect([0, 119, 120, 3599, 3600, 12_000, 172_799, 216_000, -5].map(spanWords)).toEqual([
    "0\u00a0s",
    "119\u00a0s",
    "2\u00a0min",
    "59\u00a0min",
    "1\u00a0h",
    "3\u00a0h 20\u00a0min",
    "47\u00a0h 59\u00a0min",
    "2.5 days",
    "0\u00a0s",
  ]);
});

it("is rounded as an estimate deserves, and never to nothing", () => {
  expect([20, 4000, 12_174, 50_000].map(roughly)).toEqual([
    "5\u00a0min",
    "1\u00a0h 5\u00a0min",
    "3\u00a0h 20\u00a0min",
    "14\u00a0h",
  ]);
});
