// @vitest-environment node
import "fake-indexeddb/auto";
import { beforeEach, expect, it } from "vitest";
import { undoable } from "../../base/shell/undo";
import { leave } from "./abandoned";
import { begin, change, fishes, inHand } from "./fishes";

const hour = 3_600_000;

beforeEach(() => fishes.set([]));

it("a fish that nobody goes on with leaves what is in hand after two hours, and is back by undo for good", () => {
  const fish = begin("striped bass", "", false);
  leave(fish.up.wall + 2 * hour);
  expect(inHand()).toHaveLength(1);
  leave(fish.up.wall + 2 * hour + 1);
  expect(inHand()).toHaveLength(0);
  undoable.value?.undo();
  expect(inHand()).toMatchObject([{ id: fish.id, step: "land" }]);
  leave(fish.up.wall + 9 * hour);
  expect(inHand()).toHaveLength(1);
});

it("one that bleeds or cools is not forgotten", () => {
  for (const step of ["bleed", "slush"] as const) change(begin("striped bass", "", false).id, { step });
  leave(Date.now() + 9 * hour);
  expect(inHand()).toHaveLength(2);
});
