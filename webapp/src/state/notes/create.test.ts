import { beforeEach, expect, it, vi } from "vitest";
import { take } from "../../base/position/position";
import { gear } from "../gear/gear";
import { sampleGear, sampleSpread } from "../spread/sample";
import { beginning, spread } from "../spread/spread";
import { createLines, createMark, createPass, createTouch } from "./create";

const you = vi.hoisted(() => ({ value: undefined as { may: string[] } | undefined }));
const noted: { kind: string; set: Record<string, unknown>; then?: number }[] = [];
const amended: Record<string, unknown>[] = [];
vi.mock("../log/log", () => ({ you }));
vi.mock("../log/saying/say", () => ({
  note: (kind: string, set: Record<string, unknown>) => noted.push({ kind, set }),
  noteOfThen: (kind: string, set: Record<string, unknown>, then: number) => noted.push({ kind, set, then }),
  strike: () => {},
  amend: (_: unknown, set: Record<string, unknown>) => amended.push(set),
}));

beforeEach(() => {
  noted.length = 0;
  you.value = undefined;
  gear.signal.value = sampleGear;
  spread.signal.value = sampleSpread;
  beginning.value = sampleSpread.bottom;
});

const [rod] = sampleSpread.rods;
if (!rod) throw new Error("the sample has no rod");

it("a touch at the depth that everybody begins with says so", () => {
  createTouch({ ...rod, rig: sampleGear.rigs[0]?.id ?? "" });
  expect(noted[0]).toMatchObject({
    kind: "touch",
    set: { bottom: sampleSpread.bottom, asked: { begun: true } },
  });
});

it("a touch, or a line that ran clear, has the depth that the instruments told over the lure, which is nobody's first guess", () => {
  for (const kind of ["touch", "clear"] as const) {
    createTouch({ ...rod, rig: sampleGear.rigs[0]?.id ?? "" }, kind, 17.25);
    const set = noted.pop()?.set;
    expect(set?.bottom).toBe(17.25);
    expect(set?.asked).not.toHaveProperty("begun");
  }
});

const set = () => noted.map((one) => one.set);

it("a hookup and the lines hold what is set, a pass how deep the water is", () => {
  createMark();
  createLines();
  const lineOut = sampleSpread.rods.map((rod) => expect.objectContaining({ lineOut: rod.lineOut }));
  for (const { spread } of set()) expect(spread).toMatchObject({ speed: sampleSpread.speed, rods: lineOut });
  noted.length = 0;
  // The season ends their hours by it.
  spread.signal.value = { ...sampleSpread, allIn: true };
  createLines();
  createMark();
  const bare = { spread: { speed: sampleSpread.speed, bottom: sampleSpread.bottom, rods: [] } };
  expect(set()).toEqual([bare, bare]);
  noted.length = 0;
  // As they were when it was said, whatever has become of it.
  createLines(false);
  for (const { spread } of set()) expect(spread).toMatchObject({ rods: lineOut });
  spread.signal.value = sampleSpread;
  noted.length = 0;
  createPass();
  expect(set()).toEqual([{ bottom: sampleSpread.bottom }]);
  noted.length = 0;
  createPass(1.2, 11);
  createPass(0);
  expect(set()).toEqual([
    { bottom: 11, heading: 1.2 },
    { bottom: sampleSpread.bottom, heading: 0 },
  ]);
});

it("a hookup that was tapped a while ago is one of then: it holds neither the spread nor the place of now", () => {
  createMark(Date.now() - 5000);
  expect(noted.pop()).toMatchObject({ set: { spread: { speed: sampleSpread.speed } } });
  const then = Date.now() - 300_000;
  createMark(then);
  expect(noted).toEqual([{ kind: "mark", set: {}, then }]);
});

it("a guest's hookup says nothing of lines that nobody has set on that phone", () => {
  const begun = { ...sampleSpread, rods: [{ ...rod, rig: sampleGear.rigs[0]?.id ?? "" }] };
  you.value = { may: [] };
  spread.signal.value = begun;
  createMark();
  spread.signal.value = { ...begun, bottom: begun.bottom + 1 };
  createMark();
  you.value = { may: ["crew"] };
  spread.signal.value = begun;
  createMark();
  expect(set().map((one) => "spread" in one)).toEqual([false, true, true]);
});

// Nothing out, at no speed over no water, would be set again by a tap, and counted as line that caught nothing.
it("before there is a spread nothing noted says one, nor how deep the water is", () => {
  spread.signal.value = { ...sampleSpread, speed: 0, bottom: 0, rods: [] };
  createMark();
  createLines();
  createPass();
  expect(noted).toHaveLength(3);
  for (const one of set()) {
    expect(one).not.toHaveProperty("spread");
    expect(one).not.toHaveProperty("bottom");
  }
});

it("a hookup noted before the receiver has told a place gets the first that comes soon after, and no later one", () => {
  vi.useFakeTimers({ toFake: ["performance", "Date", "setTimeout"] });
  const fix = (latitude: number) =>
    take({
      timestamp: Date.now(),
      coords: { latitude, longitude: -71.5, accuracy: 5, speed: null, heading: null },
    } as never);
  // What the other tests noted waits for one too.
  fix(41.24);
  vi.advanceTimersByTime(700_000);
  amended.length = 0;
  createMark();
  expect(amended).toEqual([]);
  vi.advanceTimersByTime(150);
  fix(41.25);
  vi.advanceTimersByTime(1000);
  fix(41.26);
  expect(amended).toEqual([{ lat: 41.25, lon: -71.5, accuracy: 5 }]);
  // One that has its place keeps it; and one whose place came too late has none.
  createMark();
  vi.advanceTimersByTime(1000);
  fix(41.27);
  vi.advanceTimersByTime(700_000);
  createMark();
  vi.advanceTimersByTime(11_000);
  fix(41.28);
  expect(amended).toHaveLength(1);
  vi.useRealTimers();
});
