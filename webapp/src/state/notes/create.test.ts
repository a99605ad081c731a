import { beforeEach, expect, it, vi } from "vitest";
import { gear } from "../gear/gear";
import { sampleGear, sampleSpread } from "../spread/sample";
import { beginning, spread } from "../spread/spread";
import { createTouch } from "./create";

const noted: { kind: string; set: Record<string, unknown> }[] = [];
vi.mock("../log/log", () => ({
  note: (kind: string, set: Record<string, unknown>) => noted.push({ kind, set }),
  strike: () => {},
  amend: () => {},
}));

beforeEach(() => {
  noted.length = 0;
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
