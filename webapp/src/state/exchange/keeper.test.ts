import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Keeper } from "./keeper";
import type { Ended, Pace } from "./run";

const answer = { now: 1_000_000 } as NonNullable<Ended["answer"]>;

beforeEach(() => vi.useFakeTimers({ now: 1_000_000 }));
afterEach(() => vi.useRealTimers());

/** A keeper whose runs end as told, one after the other; the last goes on for ever. */
function keeper(...ends: (Ended | undefined)[]) {
  const paces: Pace[] = [];
  const times: number[] = [];
  const one = new Keeper(
    async (pace) => {
      paces.push(pace);
      times.push(Date.now());
      return ends.length > 1 ? ends.shift() : ends[0];
    },
    () => 1,
  );
  const waits = () => times.slice(1).map((time, i) => time - (times[i] as number));
  return { one, paces, waits };
}

describe("the exchange", () => {
  it("never gives up, and waits longer and longer, up to five minutes", async () => {
    const { one, waits } = keeper({ trouble: "unreachable" });
    one.wake();
    await vi.advanceTimersByTimeAsync(3_600_000);
    expect(waits().slice(0, 9)).toEqual([2, 4, 8, 16, 32, 64, 128, 256, 300].map((s) => s * 1000));
    expect(waits().length).toBeGreaterThan(15);
    expect(one.status.value).toEqual({ working: false, trouble: "unreachable" });
  });

  it("does not bring back at one time all phones that failed at one time", async () => {
    const waits = [0, 0.5, 1].map(async (luck) => {
      const times: number[] = [];
      const one = new Keeper(
        async () => {
          times.push(Date.now());
          return { trouble: "server" };
        },
        () => luck,
      );
      one.wake();
      await vi.advanceTimersByTimeAsync(3000);
      return (times[1] as number) - (times[0] as number);
    });
    const [shortest, middle, longest] = await Promise.all(waits);
    expect([shortest, middle, longest]).toEqual([1000, 1500, 2000]);
  });

  it("looks less often by itself while it hears of news", async () => {
    const times: number[] = [];
    let hears = true;
    const one = new Keeper(
      async () => {
        times.push(Date.now());
        return { answer };
      },
      () => 1,
      () => hears,
    );
    one.wake();
    await vi.advanceTimersByTimeAsync(300_000);
    hears = false;
    await vi.advanceTimersByTimeAsync(360_000);
    expect(times.map((time) => (time - (times[0] as number)) / 1000)).toEqual([0, 300, 600, 660]);
  });

  it("starts from short waits again once it went well, and then looks every minute", async () => {
    const { one, waits } = keeper(
      { trouble: "unreachable" },
      { trouble: "unreachable" },
      { answer },
      { trouble: "unreachable" },
      { answer },
    );
    one.wake();
    await vi.advanceTimersByTimeAsync(130_000);
    expect(waits()).toEqual([2000, 4000, 60_000, 2000, 60_000]);
    expect(one.status.value.trouble).toBeUndefined();
  });

  it("waits at least as long as the server asks", async () => {
    const { one, waits } = keeper({ trouble: "server", after: 90_000 }, { answer });
    one.wake();
    await vi.advanceTimersByTimeAsync(100_000);
    expect(waits()).toEqual([90_000]);
  });

  it.each(["stranger", "version"] as const)("after “%s” it waits for a reason", async (trouble) => {
    const { one, paces } = keeper({ trouble });
    one.wake();
    await vi.advanceTimersByTimeAsync(3_600_000);
    expect(paces).toHaveLength(1);
    one.wake();
    await vi.advanceTimersByTimeAsync(0);
    expect(paces).toHaveLength(2);
  });

  it("sends less at once on a slow line, and more again when it is better", async () => {
    const { one, paces } = keeper({ trouble: "slow" }, { trouble: "slow" }, { answer });
    one.wake();
    await vi.advanceTimersByTimeAsync(200_000);
    expect(paces.map((pace) => pace.most)).toEqual([200, 100, 50, 100, 200, 200]);
  });

  it("runs one at a time: a reason that comes meanwhile leads to one more", async () => {
    let running = 0;
    let most = 0;
    let runs = 0;
    const one = new Keeper(async () => {
      runs++;
      most = Math.max(most, ++running);
      await new Promise((done) => setTimeout(done, 50));
      running--;
      return { answer };
    });
    for (let i = 0; i < 5; i++) one.wake();
    await vi.advanceTimersByTimeAsync(1000);
    expect({ most, runs }).toEqual({ most: 1, runs: 2 });
  });

  it("goes on after a fault of its own", async () => {
    let runs = 0;
    const one = new Keeper(async () => {
      if (++runs === 1) throw new Error("the database is gone");
      return { answer };
    });
    one.wake();
    await vi.advanceTimersByTimeAsync(3000);
    expect(runs).toBe(2);
  });

  it("tells how far the clocks are apart", async () => {
    const { one } = keeper({ answer: { ...answer, now: 400_000 } });
    one.wake();
    await vi.advanceTimersByTimeAsync(0);
    expect(one.status.value).toMatchObject({ ahead: 600_000, last: 1_000_000 });
  });
});
