import { expect, it } from "vitest";
import { Sign } from "./chart";

it("a pass without a course is drawn without a direction, and one to the north is not taken for it", () => {
  const of = (heading: number | undefined) =>
    Sign({ of: { kind: "pass", landed: false, heading } }).props as unknown as Record<string, unknown>;
  expect(of(undefined).d).not.toBe(of(0).d);
  expect(of(undefined)).not.toHaveProperty("transform");
  expect(of(0).transform).toBe("rotate(0)");
});
