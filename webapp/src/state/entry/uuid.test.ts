import { expect, it } from "vitest";
import { isUuid, uuid } from "./uuid";

it("has the time and version of RFC 9562", () => {
  // Appendix A.6 there: Unix time 0x017F22E279B0 begins 017f22e2-79b0-7.
  const id = uuid(0x017f22e279b0);
  expect(id).toMatch(/^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  expect(isUuid(id)).toBe(true);
});

it("is another one each time", () => {
  expect(new Set(Array.from({ length: 1000 }, () => uuid(1))).size).toBe(1000);
});

it.each(["", "017F22E2-79B0-7CC3-98C4-DC0C0C07398F", "017f22e279b07cc398c4dc0c0c07398f", 7, null])(
  "%s is none",
  (raw) => expect(isUuid(raw)).toBe(false),
);
