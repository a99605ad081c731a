/** What fish are called. */
import { text } from "../../../base/text/text";
import { amount } from "../../../base/units/show";
import type { Fish } from "../../../state/fish/fishes";

const t = text.fish;

/** What a fish is called: “29 in striped bass”. */
export const fishName = ({ species, length }: Pick<Fish, "species" | "length">): string =>
  t.oneFish(speciesName(species), length > 0 ? amount("ruler", length) : "") || t.someFish;

export const speciesName = (species: string): string =>
  text.notes.choices.fish?.[species]?.toLowerCase() ?? species;
