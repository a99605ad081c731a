import { beforeEach, describe, expect, it } from "vitest";
import type { Advice, RodAnswer, Step } from "../../base/desk/types/towline.gen";
import { settings } from "../../base/units/settings";
import type { Rig } from "../../state/gear/gear";
import { takeIn } from "../../state/spread/request";
import type { Rod } from "../../state/spread/spread";
import { adviceWords, briefAdvice, causeWords, depthWords, offBottomWords, riseWords } from "./words";

const ft = 0.3048;
const kn = 1852 / 3600;
const rig = { wireLength: 300 * ft, backingLength: 150 * ft } as Rig;

const calm = { high: 0.1, inBand: 0.9, deep: 0, touch: 0 };

const answer = (over: Partial<RodAnswer> = {}) =>
  ({
    depth: { low: 30 * ft, mid: 34 * ft, high: 38 * ft },
    offBottom: { low: 7 * ft, mid: 11 * ft, high: 15 * ft },
    odds: calm,
    verdict: "too high",
    likely: true,
    advice: { why: "", speed: 0, steps: [] },
    causes: [],
    ...over,
  }) as RodAnswer;

beforeEach(() => {
  const units = { depth: "ft", line: "ft", weight: "oz", pull: "lb", temperature: "°F" } as const;
  settings.signal.value = { units, cautionsRead: true };
});

const plain = (words: string) => words.replace(/[\u00a0\u202f]/g, " ");

describe("depth", () => {
  it("is told with its band, rounded as the band allows", () => {
    expect(plain(depthWords(answer()))).toBe("34 ± 4 ft");
    expect(plain(offBottomWords(answer()))).toBe("11 ft off bottom");
    const near = { low: -2 * ft, mid: 4 * ft, high: 10 * ft };
    expect(plain(offBottomWords({ ...answer(), offBottom: near, odds: { ...calm, touch: 0.24 } }))).toBe(
      "4 ft off bottom, touches 2 in 10",
    );
    // Fewer than one in ten is never said to be one.
    expect(plain(offBottomWords({ ...answer(), offBottom: near, odds: { ...calm, touch: 0.09 } }))).toBe(
      "4 ft off bottom, touches under 1 in 10",
    );
  });

  it("has no false decimals in fathoms or metres either", () => {
    settings.signal.value = { ...settings.value, units: { ...settings.value.units, depth: "m" } };
    expect(plain(depthWords(answer()))).toBe("10.5 ± 1.5 m");
    settings.signal.value = { ...settings.value, units: { ...settings.value.units, depth: "fm" } };
    expect(plain(depthWords(answer()))).toBe("5.7 ± 0.7 fm");
  });

  it("never promises a narrower band than there is", () => {
    const depth = { low: 29.8 * ft, mid: 34 * ft, high: 38.2 * ft };
    expect(plain(depthWords(answer({ depth })))).toBe("34 ± 5 ft");
  });
});

describe("what to do", () => {
  const step = (over: Partial<Step>): Step =>
    ({
      do: "line",
      speed: 1.7,
      lineOut: 235 * ft,
      weight: 0.2,
      change: 0,
      backing: 0,
      depth: 38 * ft,
      ...over,
    }) as Step;
  const given = (steps: Partial<Step>[], advice: Partial<Advice> = {}, over: Partial<RodAnswer> = {}) =>
    answer({ ...over, advice: { ...answer().advice, ...advice, steps: steps.map(step) } });
  const advise = (...of: Parameters<typeof given>) => plain(adviceWords(given(...of), rig));
  const inRow = (...of: Parameters<typeof given>) => plain(briefAdvice(given(...of), rig));

  it("is brief in a row, whatever there is to say", () => {
    const heavier = { do: "weight", weight: 0.4, lineOut: 80 } as const;
    const slower = { speed: 2.8 * kn };
    expect(inRow([{ change: 60 * ft, backing: 20 * ft }])).toBe("Let out 60 ft");
    expect(inRow([{ change: -12 * ft }])).toBe("Take in 15 ft");
    expect(inRow([{ do: "weight", weight: 0.34, lineOut: 200 * ft }])).toBe("Put on 12 oz");
    expect(inRow([{}, heavier], { why: "line too short", ...slower })).toBe("Add weight");
    expect(inRow([{}], { why: "line too short", ...slower })).toBe("Go 2.8 kn");
    expect(inRow([{}], { why: "line too short" })).toBe("Too little line");
    expect(inRow([{}], { why: "shortest line deeper", ...slower })).toBe("Take off weight");
    expect(inRow([{ do: "speed", speed: 3 * kn }, {}])).toBe("Go 3.0 kn");
    expect(inRow([])).toBe("Best there is");
  });

  it("lets out and takes in, in steps one can measure", () => {
    expect(advise([{ change: 36.2 * ft }])).toBe("Let out 35 ft more");
    // No less than is wanted.
    expect(advise([{ change: -12 * ft }])).toBe("Take in 15 ft");
    expect(advise([{ change: -1.7 * ft }])).toBe("Take in 2 ft");
  });

  it("says so when backing goes out", () => {
    expect(advise([{ change: 60 * ft, backing: 20 * ft }])).toBe(
      "Let out 60 ft more: 20 ft of backing goes out",
    );
  });

  it("has the speed put right first", () => {
    expect(advise([{ do: "speed", speed: 3 * kn }, { change: 36 * ft }])).toBe("Go 3.0 kn");
  });

  it("tells the weight where the line is right", () => {
    expect(advise([{ do: "weight", weight: 0.34, lineOut: 200 * ft }])).toBe("Put on 12 oz, with 200 ft out");
  });

  it("leaves alone what is in the band, and what no line out makes better", () => {
    expect(advise([], {}, { verdict: "in the band" })).toBe("Good as it is");
    expect(advise([])).toBe("Best there is");
  });

  it("says how far all the line goes, and what else would do", () => {
    const why = "line too short";
    const heavier = { do: "weight", weight: 0.4, lineOut: 80 } as const;
    const reach = "Even all 300 ft of wire and 150 ft of backing reach only 41 ft";
    expect(advise([{ depth: 41 * ft }, heavier], { why, speed: 2.8 * kn })).toBe(
      `${reach}: add weight or slow to 2.8 kn`,
    );
    expect(advise([{ depth: 41 * ft }, heavier], { why })).not.toContain("slow");
    // Heavier ones were looked at and do no better.
    expect(advise([{ depth: 41 * ft }], { why, speed: 2.8 * kn })).toBe(
      `${reach}: more weight does no better, slow to 2.8 kn`,
    );
    expect(advise([{ depth: 41 * ft }], { why })).toBe(`${reach}: more weight does no better`);
  });

  it("says so when even the shortest line is too deep", () => {
    const why = "shortest line deeper";
    expect(advise([{ lineOut: 1, depth: 41 * ft }], { why, speed: 4.1 * kn })).toContain(
      "speed up to 4.1 kn",
    );
  });

  it("tells a trouble in the person's units", () => {
    const trouble = { field: "rods[0].lineOut", code: "range", text: "", min: 1, max: 450 * ft } as const;
    expect(advise([], {}, { trouble })).toContain("from 3.3 to 450 ft");
  });
});

describe("causes of the band", () => {
  it("names one when it is most of it, else the two largest", () => {
    const speed = { cause: "speed through the water", share: 0.7 } as const;
    const drag = { cause: "drag of the line", share: 0.2 } as const;
    expect(causeWords(answer({ causes: [speed, drag] }))).toBe("mostly from speed through the water");
    expect(causeWords(answer({ causes: [{ ...speed, share: 0.5 }, drag] }))).toContain(
      "the drag of the line",
    );
    expect(causeWords(answer())).toContain("nothing");
  });
});

it("while a rise is ahead no rod is told what takes its lure deeper", () => {
  const step = (depth: number) => ({ do: "line", depth, change: 3 }) as Step;
  const with1 = (depth: number) => answer({ advice: { why: "", speed: 0, steps: [step(depth)] } });
  const rod = (id: string) => ({ id }) as Rod;
  takeIn.value = {};
  expect(riseWords(rod("b"), with1(36 * ft))).toBeUndefined();
  takeIn.value = { a: 0, b: 0 };
  expect(["a", "c"].map((id) => riseWords(rod(id), with1(36 * ft)))).toEqual([
    "Wait: shallow",
    "Wait: shallow",
  ]);
  expect(["a", "c"].map((id) => riseWords(rod(id), with1(32 * ft)))).toEqual([undefined, undefined]);
  takeIn.value = {};
});

it("what a rise wants of a rod is said as its alarm says it, and of no other rod", () => {
  takeIn.value = { a: 62.4, b: 0 };
  expect(["a", "b", "c"].map((id) => riseWords({ id } as Rod)?.replace("\u00a0", " "))).toEqual([
    "Take in 205 ft",
    undefined,
    undefined,
  ]);
});
