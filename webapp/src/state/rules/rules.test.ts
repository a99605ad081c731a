import { describe, expect, it } from "vitest";
import type { Rule } from "../../base/desk/types/fish.gen";
import { catchOf, fitting, fromBook, inForce, isoDay, speciesOf, watersNow, watersOf } from "./rules";

const rule = (patch: Partial<Rule>): Rule => ({
  species: "striped bass",
  waters: "ocean",
  from: { month: 1, day: 1 },
  to: { month: 12, day: 31 },
  min: 0.7,
  minKept: true,
  max: 0.8,
  maxKept: false,
  noFishing: false,
  gear: "",
  note: "",
  source: "test",
  statesOwn: false,
  validFrom: "",
  validTo: "",
  checkedOn: "",
  ...patch,
});

const rules = fromBook({
  sets: [
    {
      name: "one",
      asOf: "2024",
      rules: [rule({}), rule({ waters: "bay", min: 0 }), rule({ species: "bluefish" })],
    },
    { name: "two", asOf: "2025", rules: [rule({ waters: "river" })] },
  ],
});
const [one, two] = rules.sets as [(typeof rules.sets)[0], (typeof rules.sets)[0]];

describe("the rules in use", () => {
  it("are the first set until another is chosen, and where the boat is is never guessed", () => {
    expect(inForce(rules)).toBe(one);
    expect(watersNow(rules)).toBe("");
    expect(inForce({ ...rules, set: two.id })).toBe(two);
    expect(inForce({ ...rules, set: "removed" })).toBe(one);
  });

  it("know no waters of another set", () => {
    expect(watersNow({ ...rules, waters: "bay" })).toBe("bay");
    expect(watersNow({ ...rules, waters: "bay", set: two.id })).toBe("");
    expect(watersOf(one)).toEqual(["ocean", "bay"]);
    expect(speciesOf(one, "bay")).toEqual(["striped bass"]);
  });

  it("go to the desk as they are, without what only this phone knows of them", () => {
    const asked = { species: "striped bass", length: 0.75, byPerson: 0, byBoat: 1, aboard: 2 };
    const request = catchOf(one, "ocean", asked, new Date(2026, 6, 4, 23, 59));
    expect(request).toMatchObject({ ...asked, waters: "ocean", year: 2026, today: { month: 7, day: 4 } });
    expect(request.rules[0]).toEqual({ ...rule({}), bags: [] });
    // What an older app kept is judged, whatever its dates.
    expect(request.asKept).toBe(true);
  });

  it("go there also where somebody noted more fish or people than the desk takes", () => {
    const asked = { species: "striped bass", length: 0.75, byPerson: 1001, byBoat: 90_000, aboard: 101 };
    expect(catchOf(one, "ocean", asked)).toMatchObject({ byPerson: 1000, byBoat: 1000, aboard: 100 });
  });
});

it("a fish to ask the room of the bag with is inside every slot", () => {
  expect(fitting(one, "striped bass", "ocean")).toBeCloseTo(0.75, 9);
  expect(fitting(one, "striped bass", "bay")).toBeLessThan(0.8);
  const none = { ...one, rules: one.rules.map((each) => ({ ...each, min: 0, max: 0 })) };
  expect(fitting(none, "striped bass", "ocean")).toBeGreaterThan(0.01);
});

it("a day is told by this phone's clock", () => {
  expect(isoDay(new Date(2026, 6, 4))).toBe("2026-07-04");
});
