import { expect, it } from "vitest";
import { named } from "./named";

const words = { a: "the gear", b: "the spread", c: "the water", d: "the ice" };
const say = (...names: string[]) => named(names, words, "something", (others) => `and ${others} more`);

it("names three at most, and tells how many more there are", () => {
  expect(say("a")).toBe("the gear");
  expect(say("a", "b", "c")).toBe("the gear; the spread; the water");
  expect(say("a", "b", "c", "d", "x")).toBe("the gear; the spread; the water; and 2 more");
});

it("counts what has no name of its own", () => {
  expect(say("x")).toBe("something");
  expect(say("x", "b")).toBe("the spread; and 1 more");
});
