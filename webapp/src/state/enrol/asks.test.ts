import { signal } from "@preact/signals";
import { afterEach, beforeEach, expect, it, vi } from "vitest";

const looks = vi.fn(async () => ({ asks: [], more: 0, blocked: 0 }));
const declined: string[] = [];
class Failed extends Error {
  constructor(readonly why: object) {
    super();
  }
}
vi.mock("./server", () => ({
  Failed,
  lookWhoAsks: looks,
  decline: async (one: { device: string }) => {
    declined.push(one.device);
    if (one.device === "gone") throw new Failed({ kind: "said", code: "changed", text: "" });
    if (one.device === "beyond") throw new Failed({ kind: "unreachable" });
    return one;
  },
}));
vi.mock("../exchange/exchange", () => ({ status: signal({}) }));
vi.mock("../log/log", () => ({ you: signal({ may: ["invite"] }) }));

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("document", Object.assign(new EventTarget(), { hidden: false }));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

it("looks every two seconds who asks while a page shows it, though nobody asked so far, and every ten otherwise", async () => {
  const { keepLookingWhoAsks, showAsks } = await import("./asks");
  const within = async (ms: number) => {
    looks.mockClear();
    await vi.advanceTimersByTimeAsync(ms);
    return looks.mock.calls.length;
  };
  keepLookingWhoAsks();
  await within(0);
  expect(await within(9_000)).toBe(0);
  expect(await within(10_000)).toBe(1);
  const gone = showAsks();
  expect(await within(10_000)).toBe(5);
  gone();
  await within(0);
  expect(await within(9_000)).toBe(0);
});

it("says no to all that are shown, past one that has gone, and stops where the server is out of reach", async () => {
  const { asks, declineAll } = await import("./asks");
  const of = (device: string) => ({
    ...{ device, name: "Eve", word: device, asked: 0, ends: 1 },
    ...{ role: undefined, trip: undefined },
  });
  const all = ["a", "gone", "b", "beyond", "c"].map(of);
  asks.value = { asks: all, more: 0, blocked: 0 };
  await expect(declineAll(all)).rejects.toMatchObject({ why: { kind: "unreachable" } });
  expect(declined).toEqual(["a", "gone", "b", "beyond"]);
  expect(asks.value.asks.map(({ device }) => device)).toEqual(["gone", "beyond", "c"]);
  await declineAll(all.slice(0, 3));
  expect(asks.value.asks).toEqual([]);
});
