import "fake-indexeddb/auto";
import { beforeEach, expect, it, vi } from "vitest";
import { now } from "../../base/position/moment";
import { lastFix } from "../../base/position/position";
import { writeKept } from "../../base/store/db";
import { chartHere, ground, setChart } from "./water";

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

it("a ground kept by an app that knew no depth is read, without one", async () => {
  await writeKept("tide ground", { lat: 41.2, lon: -71.5, tide: "8531680", stream: "" });
  expect(await ground.load()).toBe(true);
  expect(ground.value).toMatchObject({ tide: "8531680", chart: 0 });
  expect(chartHere()).toBe(0);
});
