import { expect, it, vi } from "vitest";
import { saved, start } from "../log/saying/started";

const fish = { fish: "striped bass", fate: "kept", person: "Ann" };

it("what was kept on a trip that is closed counts in the bag of the day, told before or after that, and not the next day's", async () => {
  vi.useFakeTimers({ now: new Date(2031, 5, 1, 6), toFake: ["Date"] });
  try {
    const log = await start();
    const { bagNow } = await import("./people");
    const { noted, keepLately } = await import("./lately");
    const stop = keepLately();
    log.note("mark", fish);
    const open = log.note("mark", { fish: "striped bass" });
    await saved(log);
    const first = log.running.value?.trip ?? "";
    await log.show(first);
    await log.sayOfTrip(first, { closed: Date.now() });
    await saved(log);
    expect(log.running.value).toBeUndefined();
    await vi.waitFor(() => expect(bagNow()).toEqual([{ species: "striped bass", person: "Ann", count: 1 }]));
    log.amend(open, { fate: "kept", person: "Ann" });
    await saved(log);
    await vi.waitFor(() => expect(bagNow()).toEqual([{ species: "striped bass", person: "Ann", count: 2 }]));
    // In the afternoon another begins.
    log.note("mark", fish);
    await saved(log);
    await log.show(log.running.value?.trip ?? "");
    await vi.waitFor(() => expect(bagNow()).toEqual([{ species: "striped bass", person: "Ann", count: 3 }]));
    await vi.waitFor(() => expect(noted.value).toHaveLength(3));
    vi.setSystemTime(new Date(2031, 5, 2, 6));
    expect(bagNow()).toEqual([]);
    stop();
  } finally {
    vi.useRealTimers();
  }
});
