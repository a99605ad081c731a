// @vitest-environment node
import { expect, it, vi } from "vitest";

vi.stubGlobal("document", { documentElement: {} });
vi.stubGlobal("getComputedStyle", () => ({ fontSize: "18px" }));
vi.stubGlobal("innerWidth", 360);
vi.stubGlobal("innerHeight", 740);
const { poseOf, pose } = await import("./pose");

/** Common screens in CSS pixels at the app's own letters of 18 px. */
const at = (width: number, height: number, letters = 1) =>
  poseOf(width / 18 / letters, height / 18 / letters);

it("knows the poses of phones and computers", () => {
  expect(pose.value).toBe("upright");
  expect(at(360, 740)).toBe("upright");
  expect(at(360, 600)).toBe("upright");
  expect(at(768, 1024)).toBe("upright");
  expect(at(740, 360)).toBe("sideways");
  expect(at(844, 390)).toBe("sideways");
  expect(at(667, 300)).toBe("sideways");
  expect(at(1280, 800)).toBe("wide");
});

it("lets the page flow where letters are large or the screen is small", () => {
  expect(at(360, 740, 2)).toBe("flow");
  expect(at(740, 360, 2)).toBe("flow");
  expect(at(320, 256)).toBe("flow");
  expect(at(1280, 800, 2)).toBe("sideways");
});
