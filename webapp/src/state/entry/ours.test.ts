import { expect, it } from "vitest";
import { enrol as enrolIn } from "../../base/text/en/enrol";
import { notes as notesIn } from "../../base/text/en/notes";
import { enrol as enrolEn } from "../../base/text/es/enrol";
import { notes as notesEn } from "../../base/text/es/notes";
import { contract } from "./contract.gen";

it.each([
  ["English", notesIn, enrolIn],
  ["Spanish", notesEn, enrolEn],
])("no phone has a name that the app writes itself in %s", (_, { notes }, { enrol: { phone, roles } }) => {
  const { words, within } = contract.ours;
  const { me, someone, brought } = notes.record;
  expect(words).toEqual(expect.arrayContaining([me, someone, phone.you, ...Object.values(roles)]));
  const between = brought("", "").replace(/^, /, "").trim();
  expect(within).toContain(between);
});
