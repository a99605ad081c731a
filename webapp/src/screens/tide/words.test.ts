import { beforeEach, expect, it } from "vitest";
import type { Mark, Prediction } from "../../base/desk/types/tide.gen";
import { settings } from "../../base/units/settings";
import { flowWords } from "./words";

const kn = 1852 / 3600;
const evening = new Date(2026, 6, 4, 21, 0).getTime() / 1000;
const after = (minutes: number) => evening + minutes * 60;

beforeEach(() => {
  const units = { depth: "ft", line: "ft", weight: "oz", pull: "lb", temperature: "°F" } as const;
  settings.signal.value = { units, cautionsRead: true };
});

const stream = (value: number, marks: Mark[]) =>
  ({
    curve: [value],
    marks,
    flood: { towards: (346 * Math.PI) / 180 },
    ebb: { towards: (160 * Math.PI) / 180 },
  }) as Prediction;
const plain = (words: string) => words.replace(/[\u00a0\u202f]/g, " ");

it("a current is told with the slack that ends it, before its strongest, after it and past midnight", () => {
  const strongest: Mark = { time: after(98), turn: "flood", value: 2.9 * kn };
  const slack: Mark = { time: after(265), turn: "slack before ebb", value: 0 };
  const words = "Flood 2.5 kn toward 346° until 01:25, then slack, then ebb";
  expect(plain(flowWords(stream(2.5 * kn, [strongest, slack])))).toBe(words);
  expect(plain(flowWords(stream(2.5 * kn, [slack])))).toBe(words);
  const twice: Mark[] = [
    { time: after(30), turn: "least ebb", value: -1 },
    { time: after(90), turn: "ebb", value: -2 },
    { time: after(150), turn: "slack before flood", value: 0 },
  ];
  expect(plain(flowWords(stream(-1.1 * kn, twice)))).toBe(
    "Ebb 1.1 kn toward 160° until 23:30, then slack, then flood",
  );
});

it("a current that no slack ends is told without an end", () => {
  const ebbs: Mark[] = [{ time: after(30), turn: "least ebb", value: -1 }];
  expect(plain(flowWords(stream(-1.5 * kn, ebbs)))).toBe("Ebb 1.5 kn");
});
