/** For tests: one rod, and the gear on it. */
import type { Gear } from "../gear/gear";
import type { Spread } from "./spread";

const item = { id: "a", name: "", source: "test" };
const line = { ...item, breaking: 180, diameter: 5e-4, density: 7930, strum: 1 };

export const sampleGear: Gear = {
  wires: [line],
  nylons: [line],
  spoons: [{ ...item, colour: "", length: 0.2, mass: 0.1, density: 8200, dragArea: 1e-3, liftArea: 0 }],
  drails: [],
  places: [{ ...item, tipHeight: 1, abeam: 0, ahead: 0 }],
  rigs: [
    {
      ...item,
      wire: "a",
      wireLength: 90,
      backing: "a",
      backingLength: 100,
      leader: "a",
      leaderLength: 5,
      spoon: "a",
      dropper: null,
    },
  ],
};

export const sampleSpread: Spread = {
  speed: 1.6,
  bottom: 15,
  wanted: { low: 1, high: 3 },
  caution: "a tick now and then",
  bottomDoubt: 0.3,
  tideDoubt: 0.3,
  rods: [{ id: "r", place: "a", rig: "a", lineOut: 50, drail: 0, sinker: 0, planned: null }],
  selected: "r",
};
