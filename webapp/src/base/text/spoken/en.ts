/** Every text of the app in English, by rooms. */

import { about } from "../en/about";
import { calibrate } from "../en/calibrate";
import { card } from "../en/card";
import { crew } from "../en/crew";
import { enrol } from "../en/enrol";
import { fish } from "../en/fish";
import { frame } from "../en/frame";
import { gear } from "../en/gear";
import { help } from "../en/help";
import { instruments } from "../en/instruments";
import { lines } from "../en/lines";
import { notes } from "../en/notes";
import { pace } from "../en/pace";
import { plan } from "../en/plan";
import { produced } from "../en/produced";
import { rise } from "../en/rise";
import { start } from "../en/start";
import { teach } from "../en/teach";
import { tide } from "../en/tide";
import { turn } from "../en/turn";

export const en = {
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
