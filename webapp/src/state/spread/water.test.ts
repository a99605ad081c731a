import "fake-indexeddb/auto";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { limits } from "../../base/desk/types/seawater.gen";
import { writeKept } from "../../base/store/db";
import { storageTroubles } from "../../base/store/kept";
import { toSi } from "../../base/units/units";
import { firstWater, keepWater, properties, water, waterAsFirst } from "./water";

const asked = vi.hoisted(() => ({ newest: vi.fn(), restarts: { value: 0 } }));
vi.mock("../../base/desk/desk", () => ({ desk: asked, Died: class extends Error {} }));
vi.stubGlobal("BroadcastChannel", undefined);

const cold = { temperature: 5, salinity: 28 };
const answer = { density: 1022, viscosity: 1.55e-6 };

beforeEach(() => {
  water.signal.value = firstWater;
  storageTroubles.value = [];
  asked.newest.mockReset().mockResolvedValue(answer);
});

describe("the water kept on this phone", () => {
  it("is read as it was saved", async () => {
    await writeKept("water", cold);
    expect(await water.load()).toBe(true);
    expect(water.value).toEqual(cold);
  });

  const { temperature, salinity } = limits.Query;
  it.each([
    ["nothing of one", { temperature: 5 }],
    ["words", { ...cold, salinity: "bay" }],
    ["too cold", { ...cold, temperature: temperature.min - 0.1 }],
    ["too warm", { ...cold, temperature: temperature.max + 0.1 }],
    ["too salt", { ...cold, salinity: salinity.max + 1 }],
  ])("is not taken if there is in it: %s", async (_, raw) => {
    await writeKept("water", raw);
    expect(await water.load()).toBe(false);
    expect(water.value).toEqual(firstWater);
    expect(storageTroubles.value).toEqual([{ kind: "unreadable", name: "water" }]);
  });
});

describe("what the desk makes of it", () => {
  it("is nothing while it is as first set, typed in Fahrenheit too", () => {
    const stop = keepWater();
    water.signal.value = { ...firstWater, temperature: toSi(59, "°F") };
    expect(waterAsFirst(water.value)).toBe(true);
    expect(asked.newest).not.toHaveBeenCalled();
    expect(properties.value).toBeUndefined();
    stop();
  });

  it("is asked after every change, and gone when it is as first set again", async () => {
    const stop = keepWater();
    water.signal.value = cold;
    expect(asked.newest).toHaveBeenLastCalledWith("water", cold);
    await vi.waitFor(() => expect(properties.value).toEqual(answer));
    water.signal.value = firstWater;
    expect(properties.value).toBeUndefined();
    stop();
  });

  it("is not taken from an answer about water that is not there any more", async () => {
    let late: (of: typeof answer) => void = () => undefined;
    asked.newest.mockReturnValueOnce(
      new Promise((done) => {
        late = done;
      }),
    );
    const stop = keepWater();
    water.signal.value = cold;
    water.signal.value = firstWater;
    late(answer);
    await new Promise((done) => setTimeout(done));
    expect(properties.value).toBeUndefined();
    stop();
  });
});
