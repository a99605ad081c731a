import { frame as english } from "../en/frame";
import { inUse } from "../spoken/in-use";

export const {
  language,
  fromDesk,
  app,
  places,
  units,
  unitsInWords,
  palettes,
  parts,
  heard,
  problems,
  locker,
  odds,
  ages,
  quick,
  cry,
  wetLock,
  notices,
  cautions,
} = inUse(english);
