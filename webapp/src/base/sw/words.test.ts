import { expect, it } from "vitest";
import { languageOf, wordsFile } from "./words";

it("the words of a language are known by their folder, whatever its name", () => {
  for (const language of ["es", "en-XA", "fil"]) expect(languageOf(wordsFile(language))).toBe(language);
});

it("what only looks like a language is for all", () => {
  const others = ["assets/es-BnNmR54X.js", "assets/my-part-c0ffee.js", "assets/index-D3x.css", "calc.wasm"];
  expect(others.map(languageOf)).toEqual(others.map(() => undefined));
});
