import "fake-indexeddb/auto";
import { afterEach, expect, it, vi } from "vitest";
import { fetchPhoto } from "./photos";

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

it("asks for photos that never come one at a time, ever more slowly", async () => {
  vi.useFakeTimers();
  const [asked, open] = [vi.fn(), { now: 0, most: 0 }];
  vi.stubGlobal("fetch", async (url: string) => {
    asked(url);
    open.most = Math.max(open.most, ++open.now);
    await Promise.resolve();
    open.now--;
    return new Response(null, { status: 404 });
  });
  const names = Array.from({ length: 200 }, (_, i) => i.toString(16).padStart(64, "0"));
  const all = names.map((name) => fetchPhoto(name));
  await vi.advanceTimersByTimeAsync(8000);
  expect(asked.mock.calls.length).toBeLessThan(20);
  expect(open.most).toBe(1);
  // All of them have their turn.
  await vi.advanceTimersByTimeAsync(200_000);
  expect(await Promise.all(all)).toEqual(Array(200).fill(false));
  expect(new Set(asked.mock.calls.flat()).size).toBe(200);
});
