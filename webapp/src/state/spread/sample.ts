/** For tests: one rod, and the gear on it; and a small catalogue. */
import type { Catalogue } from "../../base/desk/types/gear.gen";
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
  allIn: false,
  selected: "r",
};

export const catalogued = (breaking: number) => ({
  breaking,
  diameter: 5e-4,
  density: 7930,
  strum: 1.3,
  source: "test",
  earlier: { drag: 1, source: "before" },
});
export const sampleCatalogue: Catalogue = {
  wires: [catalogued(130), catalogued(180)],
  nylons: [catalogued(90), catalogued(220)],
  spoons: [
    {
      length: 0.2,
      mass: 0.1,
      density: 8200,
      dragArea: 1e-3,
      liftArea: 0,
      source: "test",
      earlier: { drag: 2e-4, source: "before" },
    },
  ],
  drails: [{ mass: 0.1134, source: "test" }],
  places: [
    { name: "port", tipHeight: 1, abeam: -4, ahead: -3, source: "test" },
    { name: "centre", tipHeight: 2, abeam: 0, ahead: -3, source: "test" },
  ],
  start: {
    speed: 1.6,
    bottom: 15,
    wantedLow: 1,
    wantedHigh: 3,
    wireLength: 90,
    backingLength: 140,
    leaderLength: 6,
    wire: 1,
    backing: 0,
    leader: 1,
    spoon: 0,
    rods: [
      { place: 1, lineOut: 60, drail: 0 },
      { place: 0, lineOut: 45, drail: 0.2268 },
    ],
    source: "test",
  },
};
