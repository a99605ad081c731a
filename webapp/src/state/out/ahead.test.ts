import { expect, it } from "vitest";
import type { Answer } from "../../base/desk/types/day.gen";
import { aheadQuery } from "./ahead";

it("a day's slacks, high and low water and sun go into a calendar, in order, and nothing else", () => {
  const marks = [
    { time: 7200, turn: "slack before ebb", value: 0 },
    { time: 9000, turn: "ebb", value: -1 },
  ];
  const of = {
    rows: [],
    tide: { station: { name: "Demo Light" }, marks: [{ time: 3600, turn: "high water", value: 1.2 }] },
    stream: { station: { name: "Demo Race" }, marks },
    light: {
      events: [
        { time: 5400, change: "sunrise" },
        { time: 60, change: "moonset" },
      ],
    },
  } as unknown as Answer;
  const { events, format } = aheadQuery(of, { lat: 40.5, lon: -74 }, 100);
  expect(format).toBe("ics");
  expect(events?.map(({ from, name }) => [from, name])).toEqual([
    [3600, "High water"],
    [5400, "Sunrise"],
    [7200, "Slack, then ebb"],
  ]);
  expect(events?.[0]?.words).toContain("Demo Light. From harmonic constants");
  expect(new Set(events?.map(({ id }) => id)).size).toBe(3);
});
