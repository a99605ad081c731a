import { describe, expect, it, vi } from "vitest";
import { inSi } from "../../base/units/units";

/** The names in a language: texts are read once, when the modules are. */
async function names(language: string) {
  vi.resetModules();
  const { text } = await import("../../base/text/text");
  const words = language === "es" ? (await import("../../base/text/spoken/es")).es : undefined;
  if (words) for (const room of ["gear", "units"] as const) Object.assign(text[room], words[room]);
  return { ...(await import("./names")), text };
}

const spoon = (name: string, inches: number) => ({
  id: "s",
  name,
  source: "",
  length: inches * inSi.in,
  width: 0.03,
  mass: 0.1,
  dragArea: 0.001,
});

describe.each(["en", "es"])("what a copy is called (%s)", (language) => {
  it("follows its numbers, in whatever unit it was copied", async () => {
    const { spoonName, text, isCopy } = await names(language);
    for (const was of ["8 in", "8\u00a0in", "200 mm", "7.5 in"]) {
      const name = text.gear.copy(text.gear.spoon(was));
      expect(isCopy(name)).toBe(true);
      expect(spoonName(spoon(name, 9) as never)).toBe(
        text.gear.copy(text.gear.spoon(`9\u00a0${text.units.in}`)),
      );
    }
    expect(
      isCopy(text.gear.copy(text.gear.rig(text.gear.wire("40 lb"), text.gear.spoon("8 in"), true))),
    ).toBe(true);
  });

  it("stays as somebody typed it", async () => {
    const { spoonName, text } = await names(language);
    for (const typed of [
      "Old yellow",
      text.gear.copy("Old yellow"),
      text.gear.copy(text.gear.spoon("yellow")),
      "8 in",
    ])
      expect(spoonName(spoon(typed, 9) as never)).toBe(typed);
    expect(spoonName(spoon("", 9) as never)).toBe(text.gear.spoon(`9\u00a0${text.units.in}`));
  });
});

it("a kind of wire is said as wires are called here, never in newtons", async () => {
  const { wireKind, wireName, wireOfKind } = await names("en");
  const wire = { id: "w", name: "", source: "", breaking: 40 * inSi.lb } as never;
  expect(wireOfKind("178 N", [])).toBe("40\u00a0lb wire");
  expect(wireOfKind(wireKind(wire), [wire])).toBe(wireName(wire));
  const mine = { ...(wire as object), name: "The Blue Reel" } as never;
  expect(wireOfKind(wireKind(mine), [mine])).toBe("The Blue Reel");
  expect(wireOfKind("another boat’s", [mine])).toBe("another boat’s");
});

it("a rod of the catalogue is noted as it came, and said in the language of whoever reads it", async () => {
  const { placeName, placeNoted, rodWords, text } = await names("es");
  Object.assign(text.fromDesk, (await import("../../base/text/spoken/es")).es.fromDesk);
  const [came, own] = ["starboard rigger", "by the ladder"].map((name) => ({ id: "p", name }) as never);
  expect([came, own].map((place) => placeNoted(place as never))).toEqual([
    "starboard rigger",
    "by the ladder",
  ]);
  expect(placeName(came as never)).toBe("tangón de estribor");
  expect(rodWords("2 starboard rigger")).toBe("2 tangón de estribor");
  expect(rodWords("starboard rigger")).toBe("tangón de estribor");
  for (const said of ["2 by the ladder", "by the ladder", "2 ", "2", ""]) expect(rodWords(said)).toBe(said);
});
