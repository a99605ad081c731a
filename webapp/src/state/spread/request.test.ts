import { describe, expect, it } from "vitest";
import type { Gear } from "../gear/gear";
import { firstDoubt } from "./doubt";
import { seaFor, spreadFor } from "./request";
import type { Spread } from "./spread";

const spread: Spread = {
  speed: 1.6,
  bottom: 15,
  wanted: { low: 1, high: 3 },
  caution: "keep clear",
  bottomDoubt: 0.3,
  tideDoubt: 0.3,
  rods: [],
  allIn: false,
  selected: "",
};
const gear: Gear = { wires: [], nylons: [], spoons: [], drails: [], places: [], rigs: [] };
const water = { density: 1022, viscosity: 1.55e-6 };

describe("what the desk is asked", () => {
  it("has the water once it is known, and else leaves it to the desk", () => {
    expect(seaFor(spread, water)).toEqual({ speed: 1.6, bottom: 15, water });
    expect(Object.keys(seaFor(spread, undefined))).toEqual(["speed", "bottom"]);
  });

  it("has water and doubts in the spread", () => {
    const doubt = { ...firstDoubt, speed: 0.02 };
    expect(spreadFor(gear, spread, water, doubt)).toMatchObject({ sea: { water }, doubt });
  });
});
