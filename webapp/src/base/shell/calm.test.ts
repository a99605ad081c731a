import { signal } from "@preact/signals";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { calm } from "./calm";

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

it("changes at most twice a second, at once when it can, and always ends on the last value", () => {
  const source = signal(0);
  const shown = calm(source);
  const changes: number[] = [];
  shown.subscribe((value) => changes.push(value));
  vi.advanceTimersByTime(1000);
  for (let i = 1; i <= 100; i++) {
    source.value = i;
    vi.advanceTimersByTime(20);
  }
  vi.advanceTimersByTime(1000);
  expect(changes.at(1)).toBe(1);
  expect(changes.at(-1)).toBe(100);
  // Two seconds of change: one at once and four more at most, after the value it began with.
  expect(changes.length).toBeLessThanOrEqual(6);
});

it("shows the first answer at once, however soon it comes", () => {
  const source = signal(0);
  const shown = calm(source);
  source.value = 1;
  expect(shown.value).toBe(1);
});
