import { expect, it } from "vitest";
import type { Setting } from "../../base/desk/types/plan.gen";
import type { Gear } from "../gear/gear";
import type { Doubts } from "../spread/doubt";
import { soundedNow } from "../spread/request";
import type { Spread } from "../spread/spread";
import { planned, queryFor, stockOf } from "./plan";

const item = { id: "", name: "", source: "" };
const drail = (mass: number, number: number) => ({ ...item, mass, number });
const rig = { ...item, id: "r", wire: "", wireLength: 60, backing: "", backingLength: 0, leader: "" };
const gear = {
  drails: [drail(0.3, 1), drail(0.1, 2), drail(0.3, 2), drail(0.2, 0), drail(0.4, 99)],
  rigs: [{ ...rig, leaderLength: 6, spoon: "", dropper: null }],
} as unknown as Gear;
const rod = (id: string) => ({ id, place: "p", rig: "r", lineOut: 50, drail: 0, sinker: 0, planned: null });

it("drails of one weight are counted together, and no more than the desk takes", () => {
  expect(stockOf(gear)).toEqual([
    { mass: 0.1, number: 2 },
    { mass: 0.3, number: 3 },
    { mass: 0.4, number: 20 },
  ]);
});

it("knows the bottom as well as Lines does: the tide has changed nothing of what is sounded now", () => {
  const now = { bottom: 15, bottomDoubt: 0.3, tideDoubt: 0.4, rods: [] as unknown } as Spread;
  expect(queryFor(gear, now, {} as Doubts, 3).tideDoubt).toBe(0.4);
  soundedNow.value = true;
  expect(queryFor(gear, now, {} as Doubts, 3)).toMatchObject({ bottomDoubt: 0.3, tideDoubt: 0 });
  soundedNow.value = false;
});

it("the plan sets rods, takes in those nobody can tend, and leaves those it knows nothing for", () => {
  const now = { rods: [rod("a"), rod("b"), rod("c")] } as Spread;
  const set = { aboard: false, drail: 0.1, lineOut: 45.72, odds: { inBand: 0.7, touch: 0.1 } } as Setting;
  const trouble = { field: "", code: "physics", text: "" } as const;
  const rods = planned([set, { ...set, aboard: true }, { ...set, trouble }], now);
  expect(rods).toEqual([
    { ...rod("a"), drail: 0.1, lineOut: 45.72, planned: { inBand: 0.7, touch: 0.1 } },
    rod("c"),
  ]);
});
