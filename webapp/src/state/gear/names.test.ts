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

it("what nobody named is noted by its numbers, and said in the language and unit of whoever reads it", async () => {
  const gear = (wire: string, lure: string, name = "", dropper: object | null = null) => {
    const rig = { id: "r", name, wire: "w", spoon: "s", dropper } as never;
    const wires = [{ id: "w", name: wire, source: "", breaking: 40 * inSi.lb }];
    return [rig, { wires, spoons: [{ ...spoon(lure, 8), id: "s" }] } as never] as const;
  };
  for (const language of ["en", "es"]) {
    const { rigName, rigNoted, rigWords, spoonName, spoonNoted, spoonWords, text } = await names(language);
    expect(spoonNoted(spoon("", 8) as never)).toBe("203 mm");
    expect(spoonWords("203 mm")).toBe(spoonName(spoon("", 8) as never));
    // What somebody called it in words nobody translates, nor what an older app noted.
    for (const said of ["Old yellow", "8 in spoon", "203 mm of it"]) {
      expect(spoonWords(said)).toBe(said);
      expect(rigWords(said)).toBe(said);
    }
    expect(spoonNoted(spoon("Old yellow", 8) as never)).toBe("Old yellow");
    // A copy that nobody named goes by its own numbers too.
    expect(spoonNoted(spoon(text.gear.copy(text.gear.spoon("7 in")), 8) as never)).toBe("203 mm");
    const noted = [
      [gear("", ""), "177.9 N + 203 mm"],
      [gear("", "", "", {}), "177.9 N + 203 mm + three-way"],
      [gear("The Blue Reel", ""), "The Blue Reel + 203 mm"],
      [gear("", "Red + white", "", {}), "177.9 N + Red + white + three-way"],
      [gear("The Blue Reel", "Old yellow", "", {}), "The Blue Reel + Old yellow + three-way"],
      [gear("", "", "Night rig"), "Night rig"],
    ] as const;
    for (const [[rig, all], as] of noted) {
      expect(rigNoted(rig, all)).toBe(as);
      expect(rigWords(as)).toBe(rigName(rig, all));
    }
    expect(rigWords("heavy + light")).toBe("heavy + light");
  }
});

it("a wire is called in notes what it is called in gear, in kilograms too", async () => {
  const { rigName, rigNoted, rigWords } = await names("en");
  const { settings } = await import("../../base/units/settings");
  const { units } = settings.value;
  settings.signal.value = { ...settings.value, units: { ...units, depth: "m", line: "m", pull: "kg" } };
  const rig = { id: "r", name: "", wire: "w", spoon: "s", dropper: null } as never;
  for (const pounds of [20, 30, 40, 45, 50, 60]) {
    const wires = [{ id: "w", name: "", source: "", breaking: pounds * inSi.lb }];
    const gear = { wires, spoons: [{ ...spoon("", 8), id: "s" }] } as never;
    expect(rigWords(rigNoted(rig, gear))).toBe(rigName(rig, gear));
  }
});
