import { expect, it } from "vitest";
import { bare } from "../../base/text/bare";
import { text } from "../../base/text/text";
import { kinds } from "./kinds";
import { choiceName, fieldName, kindName } from "./words";

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
