import { afterEach, expect, it, vi } from "vitest";
import { text } from "../../base/text/text";
import { askToPersist, checks } from "./checks";

const t = text.ready.checks.storage;
const said = () => checks.value.find(({ key }) => key === "storage")?.say;

afterEach(() => vi.unstubAllGlobals());

it("tells that the phone was asked to keep what is entered and gave no promise, and what to do then", async () => {
  const persist = vi.fn(async () => false);
  vi.stubGlobal("isSecureContext", true);
  vi.stubGlobal("matchMedia", () => ({ matches: false }));
  vi.stubGlobal("navigator", { storage: { persist, persisted: persist } });
  await askToPersist();
  expect(said()).toBe(t.refused);
  persist.mockResolvedValue(true);
  await askToPersist();
  expect(said()).toBe(t.good);
});
