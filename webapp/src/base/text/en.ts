/** Every text of the app in English, by rooms. */
import { aboard } from "./en/aboard";
import { crew } from "./en/crew";
import { fish } from "./en/fish";
import { frame } from "./en/frame";
import { gear } from "./en/gear";
import { learn } from "./en/learn";
import { lines } from "./en/lines";
import { notes } from "./en/notes";
import { pace } from "./en/pace";
import { turn } from "./en/turn";

export const en = {
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
