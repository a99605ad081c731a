import { afterEach, expect, it, vi } from "vitest";
import { Rounds } from "./rounds";

afterEach(() => {
  vi.useRealTimers();
});

it("go again soon where the line broke, later and later, and no more when they are there", async () => {
  vi.useFakeTimers();
  const luck = [true, true, true, false];
  const sent: string[][] = [];
  const rounds = new Rounds(async (wanted) => {
    sent.push(wanted);
    return luck.shift() ?? false;
  });
  rounds.begin(["a"]);
  await vi.advanceTimersByTimeAsync(1900);
  expect(sent).toHaveLength(1);
  await vi.advanceTimersByTimeAsync(200);
  expect(sent).toHaveLength(2);
  await vi.advanceTimersByTimeAsync(3800);
  expect(sent).toHaveLength(2);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(sent).toEqual([["a"], ["a"], ["a"], ["a"]]);
});

it("one at a time, the last that was wanted after the one under way", async () => {
  const over: ((broke: boolean) => void)[] = [];
  const sent: string[][] = [];
  const rounds = new Rounds((wanted) => {
    sent.push(wanted);
    return new Promise((done) => over.push(done));
  });
  const all = rounds.begin(["a"]);
  rounds.begin(["b"]);
  rounds.begin(["c"]);
  expect(sent).toEqual([["a"]]);
  over[0]?.(true);
  await vi.waitFor(() => expect(sent).toEqual([["a"], ["c"]]));
  over[1]?.(false);
  await all;
  expect(sent).toHaveLength(2);
});
