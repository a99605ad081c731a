import { expect, it } from "vitest";
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
