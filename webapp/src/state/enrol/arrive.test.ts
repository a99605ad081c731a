import { beforeEach, expect, it, vi } from "vitest";

let shown: string;

async function arrivesAt(hash: string): Promise<string | undefined> {
  vi.resetModules();
  shown = hash;
  vi.stubGlobal("location", { hash });
  vi.stubGlobal("addEventListener", () => undefined);
  vi.stubGlobal("history", {
    state: null,
    replaceState: (_state: unknown, _title: string, to: string) => {
      shown = to;
    },
  });
  return (await import("./arrive")).invitation.value;
}

beforeEach(() => vi.unstubAllGlobals());

it("takes an invitation out of the address, also out of a link that is for another server", async () => {
  const secret = "kBqYQm0r1pPZ0tZ4VbHn9w";
  for (const more of ["", `&root=${"ab".repeat(32)}`]) {
    expect(await arrivesAt(`#join=${secret}${more}`)).toBe(secret);
    expect(shown).toBe("#/enrol");
  }
  for (const none of ["", "#/enrol", `#join=${secret}&root=ab`, "#join=short"]) {
    expect(await arrivesAt(none)).toBeUndefined();
    expect(shown).toBe(none);
  }
});
