import { expect, it } from "vitest";
import { en } from "../../../base/text/spoken/en";
import { es } from "../../../base/text/spoken/es";

it.each([en, es])("the words of a depth card leave to its table what hangs on spoon, tip and speed", (of) => {
  for (const paragraph of of.card.why) expect(paragraph).not.toMatch(/\d ft (of line|de línea)/);
});

it.each([
  [en, /Nobody has measured/],
  [es, /Nadie ha medido/],
])("they say that nobody measured the line only where nothing was taught of it", (of, nobody) => {
  expect(of.card.cables(false)).toMatch(nobody);
  expect(of.card.cables(true)).not.toMatch(nobody);
  expect(of.card.cables(true)).toContain(of.calibrate.title);
});
