import { expect, it } from "vitest";
import { settings } from "../../base/units/settings";
import { exact } from "../../base/units/show";
import { firstDay, iceQuery } from "./ice";

const sea = { temperature: 15, salinity: 33 };

it("fish come evenly from the first to the last, as warm as the sea", () => {
  const { fish } = iceQuery({ ...firstDay, count: 3, mass: 4, first: 3600, last: 3 * 3600 }, sea);
  expect(fish).toEqual([3600, 7200, 10_800].map((at) => ({ at, mass: 4, temperature: 15 })));
});

it("none is asked for none, and one comes first", () => {
  expect(iceQuery({ ...firstDay, count: 0 }, sea).fish).toEqual([]);
  expect(iceQuery({ ...firstDay, count: 1 }, sea).fish).toMatchObject([{ at: firstDay.first }]);
});

it("is a request that the desk takes: water below freezing gives no fish below it, none comes after the end", () => {
  const asked = iceQuery({ ...firstDay, hold: 3600, first: 7200, last: 9000 }, { ...sea, temperature: -1 });
  expect(asked.fish?.every(({ at = 0, temperature }) => at <= 3600 && temperature === 0)).toBe(true);
  expect(asked.box).not.toHaveProperty("name");
});

it("what it begins with reads in whole and half numbers, in the units of either kind", () => {
  const read = () =>
    firstDay.boxes
      .flatMap(({ length, width, height, mass }) => [
        ...[length, width, height].map((si) => exact("size", si)),
        exact("mass", mass),
      ])
      .concat(exact("mass", firstDay.mass), exact("temperature", firstDay.air));
  for (const units of [
    { line: "ft", pull: "lb", temperature: "°F" },
    { line: "m", pull: "kg", temperature: "°C" },
  ] as const) {
    settings.set({ ...settings.value, units: { ...settings.value.units, ...units } });
    expect(read().filter((number) => !/^\d+(\.5)?$/.test(number))).toEqual([]);
    expect(exact("ruler", firstDay.boxes[0]?.wall ?? 0)).toBe(units.line === "ft" ? "1.5" : "3.8");
  }
});
