import { afterEach, expect, it, vi } from "vitest";
import { desk } from "../../base/desk/desk";
import { fromBook, rules } from "../rules/rules";
import { keepLookingAtRules, rulesReady } from "./rules";

const day = { month: 1, day: 1 };

const only = (checkedOn: string) => {
  const rule = { species: "striped bass", waters: "here", from: day, to: day, min: 0, max: 0, checkedOn };
  return fromBook({ sets: [{ name: "ours", asOf: "", rules: [rule] }] } as never);
};

afterEach(() => vi.restoreAllMocks());

it("rules are to be looked up while no waters are chosen or the desk calls one too old, and not after", async () => {
  const judge = (_: string, of: { rules: { checkedOn: string }[] }) =>
    Promise.resolve({ aged: of.rules.filter((one) => one.checkedOn === "2018") });
  const asked = vi.spyOn(desk, "ask").mockImplementation(judge as never);
  keepLookingAtRules();
  await vi.waitFor(() => expect(rulesReady.value).toBe("nowhere"));
  rules.set(only("2026-06-01"));
  await Promise.resolve();
  expect(asked).not.toHaveBeenCalled();
  rules.set({ ...rules.value, waters: "here" });
  await vi.waitFor(() => expect(rulesReady.value).toBe("good"));
  rules.set({ ...only("2018"), waters: "here" });
  await vi.waitFor(() => expect(rulesReady.value).toBe("old"));
  asked.mockRejectedValue(new Error("stopped"));
  rulesReady.value = "good";
  rules.set({ ...only("2026-06-01"), waters: "here" });
  await vi.waitFor(() => expect(rulesReady.value).toBeUndefined());
});
