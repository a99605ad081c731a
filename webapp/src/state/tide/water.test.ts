import "fake-indexeddb/auto";
import { beforeEach, expect, it, vi } from "vitest";
import { now } from "../../base/position/moment";
import { lastFix } from "../../base/position/position";
import { writeKept } from "../../base/store/db";
import { chartHere, ground, keepGround, setChart } from "./water";

vi.stubGlobal("BroadcastChannel", undefined);

const goTo = (lat: number, lon: number) => {
  lastFix.value = { at: now(), fix: { lat, lon, accuracy: 5 } };
};

beforeEach(() => {
  ground.signal.value = null;
  lastFix.value = undefined;
});

it("the depth on the chart holds about where it was typed, and nowhere else", () => {
  setChart(12);
  expect(chartHere()).toBe(0);
  goTo(41.2, -71.5);
  setChart(12);
  expect(chartHere()).toBe(12);
  goTo(41.21, -71.51);
  expect(chartHere()).toBe(12);
  goTo(41.23, -71.5);
  expect(chartHere()).toBe(0);
  goTo(41.2, -71.5);
  expect(chartHere()).toBe(12);
});

it("the track wanted is kept with the ground, and stays as it is left", async () => {
  goTo(41.2, -71.5);
  keepGround({ track: 1.2 });
  keepGround({ tide: "8531680" });
  await ground.settled();
  ground.signal.value = null;
  expect(await ground.load()).toBe(true);
  expect(ground.value).toMatchObject({ track: 1.2, tide: "8531680" });
});

it("a ground kept by an app that knew no depth and no track is read, without them", async () => {
  await writeKept("tide ground", { lat: 41.2, lon: -71.5, tide: "8531680", stream: "" });
  expect(await ground.load()).toBe(true);
  expect(ground.value).toMatchObject({ tide: "8531680", chart: 0, track: null });
  expect(chartHere()).toBe(0);
});
