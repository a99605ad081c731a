/** Todos los textos de la aplicación en español, por lugares. A text that is missing here does not pass the type check. */

import { about } from "../es/about";
import { calibrate } from "../es/calibrate";
import { card } from "../es/card";
import { crew } from "../es/crew";
import { enrol } from "../es/enrol";
import { fish } from "../es/fish";
import { frame } from "../es/frame";
import { gear } from "../es/gear";
import { help } from "../es/help";
import { instruments } from "../es/instruments";
import { lines } from "../es/lines";
import { notes } from "../es/notes";
import { pace } from "../es/pace";
import { plan } from "../es/plan";
import { produced } from "../es/produced";
import { rise } from "../es/rise";
import { start } from "../es/start";
import { teach } from "../es/teach";
import { tide } from "../es/tide";
import { turn } from "../es/turn";
import type { en } from "./en";

export const es: typeof en = {
  ...frame,
  ...about,
  ...instruments,
  ...lines,
  ...tide,
  ...turn,
  ...start,
  ...teach,
  ...calibrate,
  ...plan,
  ...produced,
  ...rise,
  ...pace,
  ...notes,
  ...fish,
  ...card,
  ...crew,
  ...help,
  ...gear,
  ...enrol,
};
