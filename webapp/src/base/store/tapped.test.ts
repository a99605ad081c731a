import { afterEach, beforeEach, expect, it, vi } from "vitest";

let kept: { [key: string]: string };

beforeEach(() => {
  kept = {};
  const storage = {
    getItem: (key: string) => kept[key] ?? null,
    setItem: (key: string, value: string) => {
      kept[key] = value;
    },
    removeItem: (key: string) => {
      delete kept[key];
    },
  };
  vi.stubGlobal(
    "localStorage",
    new Proxy(storage, {
      ownKeys: () => Object.keys(kept),
      getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }),
    }),
  );
  vi.useFakeTimers({ toFake: ["Date"], now: Date.UTC(2026, 6, 4, 16) });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** As a page loads it that has no memory of the others. */
async function page() {
  vi.resetModules();
  return await import("./tapped");
}

const later = (ms: number) => vi.setSystemTime(Date.now() + ms);

it("takes whoever taps again while the first tap waits to mean the same, as of the first, on the next page too", async () => {
  const { tapped, undone } = await page();
  const { at } = tapped("mark");
  later(1000);
  expect(tapped("mark").at).toBe(at);
  expect(tapped("up").at).toBe(at + 1000);
  later(60_000);
  const next = await page();
  expect(next.tapped("mark").at).toBe(at);
  expect(undone().map(({ what }) => what)).toEqual(["mark", "up"]);
  // What was left yesterday is another hookup.
  later(86_400_000);
  expect(next.tapped("mark").at).toBe(Date.now());
  expect(next.undone().map(({ what }) => what)).toEqual(["mark", "up", "mark"]);
});

it("has a tap done once, by whichever page comes to it first, and the next one is another", async () => {
  const first = await page();
  const tap = first.tapped("mark");
  const second = await page();
  const [left] = second.undone();
  const act = vi.fn();
  expect(left?.take(act)).toBe(true);
  expect(tap.take(act)).toBe(false);
  expect(first.tapped("mark").take(act)).toBe(true);
  expect(act).toHaveBeenCalledTimes(2);
  expect(kept).toEqual({});
});

it("keeps a tap that could not be done", async () => {
  const { tapped, undone } = await page();
  const fails = () => {
    throw new Error("no");
  };
  expect(() => tapped("mark").take(fails)).toThrow("no");
  expect(undone()).toHaveLength(1);
});

it("does what is tapped where nothing can be kept at once", async () => {
  vi.stubGlobal("localStorage", undefined);
  const { tapped } = await page();
  const act = vi.fn();
  expect(tapped("mark").take(act)).toBe(true);
  expect(act).toHaveBeenCalledTimes(1);
});
