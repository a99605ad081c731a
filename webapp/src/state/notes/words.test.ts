import { describe, expect, it } from "vitest";
import { bare } from "../../base/text/spoken/bare";
import { text } from "../../base/text/text";
import { contract } from "../entry/contract.gen";
import type { Folded } from "../entry/fold";
import { you } from "../log/log";
import { kinds } from "./kinds";
import { spreadIn } from "./snapshot";
import { choiceName, fieldName, kindName, positionWords, valueWords, writerWords } from "./words";

/** What every object has by itself. */
const inherited = ["constructor", "toString", "__proto__", "hasOwnProperty", "valueOf"];

it("finds what was put in and nothing else, however deep", () => {
  const table = bare({ a: { b: 1 } as { [key: string]: unknown }, f: () => "word" } as {
    [key: string]: unknown;
  });
  expect((table.a as { b: number }).b).toBe(1);
  expect((table.f as () => string)()).toBe("word");
  for (const key of inherited) {
    expect(table[key]).toBeUndefined();
    expect((table.a as { [key: string]: unknown })[key]).toBeUndefined();
  }
});

it("words are found by what others wrote without finding what is none", () => {
  for (const key of inherited) {
    expect(kinds[key]).toBeUndefined();
    expect(kindName(key)).toBe(text.notes.unknownKind(key));
    expect(fieldName(key)).toBe(key);
    expect(choiceName("fish", key)).toBe(key);
    expect(choiceName(key, "kept")).toBe("kept");
  }
});

/** Numbers that the page of a record tells by themselves, in their own words. */
const apart = ["lat", "lon", "accuracy", "sog", "cog", "fixAge"];

describe("a number with a unit", () => {
  const all = Object.entries({ ...contract.kinds, "of a newer app": contract.kinds.touch }).flatMap(
    ([kind, fields]) =>
      Object.entries(fields as { [name: string]: { is: string; unit?: string } })
        .filter(([name, { is, unit }]) => is === "number" && unit && !apart.includes(name))
        .map(([name]) => [kind, name] as const),
  );
  it.each(all)("is told in a person's units: %s, %s", (kind, name) => {
    expect(valueWords(kind, name, 0.226796185)).not.toContain("0.2267");
    expect(valueWords(kind, name, 0.226796185)).toMatch(/\d[^\d.]/);
  });
});

it("tells a place with how bad it is, where it is bad", () => {
  const at = (accuracy?: number) => {
    const all = { lat: 41.2, lon: -71.5, ...(accuracy !== undefined && { accuracy }) };
    const fields = new Map(Object.entries(all).map(([name, value]) => [name, { value }]));
    return positionWords({ fields } as unknown as Folded)[0];
  };
  expect(at(200)).toMatch(/ ±\u202f656\sft$/);
  expect(at(31)).toContain("±");
  expect(at(5)).not.toContain("±");
  expect(at()).toBe(at(5));
});

/** By hand, after UAX #9: what reads from the right stays between its isolates, and nothing hidden is shown. */
it("what others wrote turns nothing around it, and hides nothing", () => {
  const hebrew = "\u05e9\u05dc\u05d5\u05dd";
  expect(valueWords("mark", "person", hebrew)).toBe(`\u2068${hebrew}\u2069`);
  expect(valueWords("mark", "person", "Ann")).toBe("Ann");
  expect(valueWords("kite", "string", "a\u200bb\u200f")).toBe("ab");
  expect(valueWords("kite", "string", { deep: ["a\u200b", hebrew] })).toBe(
    `\u2068{"deep":["a","${hebrew}"]}\u2069`,
  );
  const entry = { id: "", record: "", kind: "note", trip: "", prev: [], at: 1, n: 1 };
  const words = writerWords({ ...entry, by: "x", byName: hebrew, via: "y", viaName: `${hebrew} 2` });
  expect(words).toBe(text.notes.record.brought(`\u2068${hebrew}\u2069`, `\u2068${hebrew} 2\u2069`));
  // A guest is told for one, whatever its name says, and whose word the server does not tell for anybody's.
  const guest = { ...entry, by: "g", byName: "The skipper", no: 1 };
  expect(writerWords(guest)).toBe("The skipper");
  you.value = { device: "me", name: "Sal", role: "mate", may: ["crew"], crew: ["me", "s"] };
  expect(writerWords(guest)).toBe("The skipper (guest)");
  expect(writerWords({ ...entry, by: "s", byName: "Sam" })).toBe("Sam");
  const brought = { ...guest, via: "s", viaName: "Sam" };
  expect(writerWords(brought)).toBe("The skipper, brought by Sam");
  you.value = { ...you.value, guests: ["g"] };
  expect(writerWords(brought)).toBe("The skipper (guest), brought by Sam");
  expect(writerWords({ ...brought, by: "s", via: "h" })).toBe("The skipper, brought by Sam (guest)");
  // Of what came in a file nobody knows who wrote it: it has an id of its own, or one of another server's phones.
  const filed = { ...entry, by: "made up", byName: text.notes.record.someone };
  expect(writerWords(filed)).toBe(text.notes.record.someone);
  expect(writerWords({ ...filed, no: 2, via: "me", viaName: "Sal" })).toBe(
    text.notes.record.brought(text.notes.record.someone, "Sal"),
  );
  you.value = undefined;
  const spread = {
    speed: 1,
    bottom: 2,
    rods: [{ place: "a\u200b", rig: "b\u202e", lure: "c", lineOut: 1, drail: 0 }],
  };
  expect(spreadIn(spread)?.rods).toMatchObject([{ place: "a", rig: "b", lure: "c" }]);
});

it("waters are called in the language of whoever reads, as Fish calls them", async () => {
  const known = (await import("../../base/text/rooms/frame")).fromDesk;
  const { fromDesk } = (await import("../../base/text/spoken/es")).es;
  const said = Object.keys(fromDesk).find((one) => one.startsWith("ocean")) ?? "";
  const before = { ...known };
  Object.assign(known, fromDesk);
  expect(valueWords("mark", "waters", said)).toMatch(/^océano/);
  for (const name of Object.keys(known)) if (!(name in before)) delete known[name];
});
