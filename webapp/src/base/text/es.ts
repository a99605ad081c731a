/** Todos los textos de la aplicación en español, por lugares. A text that is missing here does not pass the type check. */
import type { en } from "./en";
import { aboard } from "./es/aboard";
import { crew } from "./es/crew";
import { fish } from "./es/fish";
import { frame } from "./es/frame";
import { gear } from "./es/gear";
import { learn } from "./es/learn";
import { lines } from "./es/lines";
import { notes } from "./es/notes";
import { pace } from "./es/pace";
import { turn } from "./es/turn";

export const es: typeof en = {
  ...frame,
  ...lines,
  ...turn,
  ...learn,
  ...pace,
  ...notes,
  ...fish,
  ...crew,
  ...gear,
  ...aboard,
};
