import { beforeEach, expect, it } from "vitest";
import { now } from "./moment";
import { lastFix } from "./position";
import { keepTrack, spots, track } from "./track";

beforeEach(() => {
  lastFix.value = undefined;
  track.value = [];
  spots.value = [];
});

it("tells of every velocity whether the position moved since the fix before", () => {
  keepTrack();
  const fix = (run: number, lat: number, more: object = { sog: 1.7, cog: 1 }) => {
    lastFix.value = { at: { ...now(), run }, fix: { lat, lon: -71, accuracy: 5, ...more } };
  };
  fix(1000, 41.2);
  fix(2000, 41.20001);
  fix(3000, 41.20001);
  // A fix without a speed counts as a place that it was at.
  fix(4000, 41.20002, {});
  fix(5000, 41.20002);
  fix(6000, 41.20003);
  expect(track.value.map(({ at, moved }) => [at, moved])).toEqual([
    [1000, false],
    [2000, true],
    [3000, false],
    [5000, false],
    [6000, true],
  ]);
});
